// What joints let parts do: a hinge or a plug turns about its axis, a ball freely about its centre. Degrees; nothing knows what stands in the way.

import { ask } from './model.js';
import { THREE } from './stage.js';

const RADIANS = Math.PI / 180;
const ORDER = 'ZYX'; // About the figure's x, then y, then z axis; three.js names the last turn first.

/** Parts are placed by hand: so far apart may ball and socket sit, mm. */
const FARTHEST = 3;

export class JointTurn {
  constructor(joint) {
    this.joint = joint;
    this.at = new THREE.Vector3(...joint.at);
    this.axis = joint.axis ? new THREE.Vector3(...joint.axis) : null;
    this.angles = this.axis ? [0] : [0, 0, 0];
  }

  /** In the figure as it was built. */
  matrix() {
    if (this.angles.every((a) => a === 0)) return null;
    const [a, b, c] = this.angles.map((angle) => angle * RADIANS);
    const turn = new THREE.Matrix4();
    if (this.axis) turn.makeRotationAxis(this.axis, a);
    else turn.makeRotationFromEuler(new THREE.Euler(a, b, c, ORDER));
    return turn.premultiply(new THREE.Matrix4().makeTranslation(this.at)).multiply(new THREE.Matrix4().makeTranslation(this.at.clone().negate()));
  }

  /** Follows a finger: half a degree a pixel, the near side going with it. */
  drag(dx, dy, view) {
    const [across, upright, towards] = ['across', 'upright', 'towards'].map((name) => new THREE.Vector3(...view.axes()[name]));
    if (this.axis) {
      const goes = this.axis.clone().cross(towards);
      const facing = Math.abs(this.axis.dot(towards)) > 0.9;
      const degrees = facing ? -dx * Math.sign(this.axis.dot(towards)) : dx * goes.dot(across) - dy * goes.dot(upright);
      this.angles[0] = within(this.angles[0] + degrees / 2);
      return;
    }

    const turn = new THREE.Matrix4().makeRotationAxis(upright, dx / 2 * RADIANS)
      .multiply(new THREE.Matrix4().makeRotationAxis(across, dy / 2 * RADIANS))
      .multiply(new THREE.Matrix4().makeRotationFromEuler(new THREE.Euler(...this.angles.map((a) => a * RADIANS), ORDER)));
    const { x, y, z } = new THREE.Euler().setFromRotationMatrix(turn, ORDER);
    this.angles = [x, y, z].map((a) => within(a / RADIANS));
  }
}

/** Finds the centres of ball joints: where a ball of one part and a socket of the other sit together. Joints of which the meshes tell none stay as they are. */
export async function settleBalls(joints, copies) {
  await Promise.all(joints.filter((j) => j.ball && !j.at).map(async (joint) => {
    const { copy, balls, socketCopy, sockets } = joint.ball;
    const [entering, receiving] = await Promise.all([balls, sockets].map((address) => ask(address).then((told) => told.balls, () => [])));
    const placed = (number, list) => list.map((ball) => new THREE.Vector3(...ball.center).applyMatrix4(copies[number].rest));
    const centres = placed(copy, entering);
    const seats = placed(socketCopy, receiving);
    const best = centres.flatMap((centre) => seats.map((seat) => ({ centre, apart: centre.distanceTo(seat) }))).sort((a, b) => a.apart - b.apart)[0];
    if (best && best.apart <= FARTHEST) joint.at = best.centre.toArray();
  }));
}

const within = (degrees) => ((degrees + 180) % 360 + 360) % 360 - 180;
