// The scene: a canvas, a camera, lamps that stand beside the viewer, and what is put in. Draws only when something changed.

import * as THREE from '../lib/three/three.module.js';
import { View, handle } from './hand.js';
import { tintOf } from './tints.js';

const FIELD = 28;
const CLAY = 0xd2c4ad;

/** True where the browser can draw at all. */
export function canDraw() {
  try {
    return document.createElement('canvas').getContext('webgl2') !== null;
  } catch {
    return false;
  }
}

export class Stage {
  #disposals = [];
  #asked = false;
  #marks = new Map();
  #materials = new Set();

  /** Canvas and labels go into `box`, which has a size of its own. */
  constructor(box, label, tapped, grip) {
    this.box = box;
    this.canvas = document.createElement('canvas');
    this.canvas.className = 'look-canvas';
    this.canvas.tabIndex = 0;
    this.canvas.setAttribute('role', 'application');
    this.canvas.setAttribute('aria-label', label);
    this.labels = document.createElement('div');
    this.labels.className = 'look-labels';
    this.labels.setAttribute('aria-hidden', 'true');
    box.append(this.canvas, this.labels);
    this.renderer = new THREE.WebGLRenderer({ canvas: this.canvas, antialias: true, alpha: true, powerPreference: 'low-power' });
    const about = this.renderer.getContext().getExtension('WEBGL_debug_renderer_info');
    const name = about ? String(this.renderer.getContext().getParameter(about.UNMASKED_RENDERER_WEBGL)) : '';
    this.isSoftware = /swiftshader|llvmpipe|software|basic render/i.test(name);
    this.renderer.setPixelRatio(this.isSoftware ? 1 : Math.min(2, devicePixelRatio));
    this.scene = new THREE.Scene();
    this.camera = new THREE.PerspectiveCamera(FIELD, 1, 0.1, 10_000);
    this.camera.up.set(0, 0, 1);
    this.view = new View();
    this.view.field = FIELD;
    this.parts = new THREE.Group();
    this.extras = new THREE.Group();
    this.lamps = new THREE.Group();
    const key = new THREE.DirectionalLight(0xffffff, 2.1);
    key.position.set(-0.45, 0.75, 0.75);
    const fill = new THREE.DirectionalLight(0xffffff, 0.5);
    fill.position.set(0.85, -0.1, 0.45);
    this.lamps.add(key, key.target, fill, fill.target);
    this.scene.add(this.parts, this.extras, this.lamps, new THREE.AmbientLight(0xffffff, 0.75));
    this.#disposals.push(handle(this.canvas, this.view, () => this.changed(), tapped, grip));
    const sizes = new ResizeObserver(() => this.#fit());
    sizes.observe(box);
    const scheme = matchMedia('(prefers-color-scheme: dark)');
    const recolour = () => {
      for (const material of this.#materials) this.#ink(material);
      this.draw();
    };
    scheme.addEventListener('change', recolour);
    this.#disposals.push(() => sizes.disconnect(), () => scheme.removeEventListener('change', recolour));
    this.canvas.addEventListener('webglcontextlost', event => {
      event.preventDefault();
      this.box.dispatchEvent(new CustomEvent('look:lost'));
    });
    this.#fit();
  }

  /** A surface that can carry a class a triangle. */
  surface(model) {
    const shared = new THREE.BufferGeometry();
    shared.setAttribute('position', new THREE.BufferAttribute(model.positions, 3));
    shared.setAttribute('normal', new THREE.BufferAttribute(model.normals, 3, true));
    shared.setIndex(new THREE.BufferAttribute(model.indices, 1));
    const material = new THREE.MeshLambertMaterial({ color: CLAY, side: THREE.DoubleSide });
    material.userData.tints = { value: [0, 1, 2, 3].map(() => new THREE.Color()) };
    material.onBeforeCompile = shader => {
      shader.uniforms.tints = material.userData.tints;
      shader.vertexShader = 'attribute float kind;\nflat varying float vKind;\n' + shader.vertexShader.replace('#include <begin_vertex>', '#include <begin_vertex>\nvKind = kind;');
      shader.fragmentShader = 'uniform vec3 tints[4];\nflat varying float vKind;\n' + shader.fragmentShader.replace('#include <color_fragment>', `#include <color_fragment>
        int kind = int(vKind + 0.5);
        if (kind > 0) {
          int k = (kind - 1) % 4;
          vec2 p = mod(gl_FragCoord.xy, 8.0);
          bool ink = k == 0 ? mod(p.x + p.y, 8.0) < 4.0 : k == 1 ? distance(p, vec2(4.0)) < 2.6 : k == 2 ? p.y < 3.0 : p.x < 2.0 || p.y < 2.0;
          diffuseColor.rgb = mix(diffuseColor.rgb, tints[k], ink ? 0.95 : 0.45);
        }`);
    };
    this.#materials.add(material);
    this.#ink(material);
    const mesh = new THREE.Mesh(shared, material);
    mesh.userData.shared = shared;
    return mesh;
  }

  /** The same surface to be asked where it is; never drawn, holds nothing of the graphics processor. */
  probe(model) {
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute('position', new THREE.BufferAttribute(model.positions, 3));
    geometry.setAttribute('normal', new THREE.BufferAttribute(model.normals, 3, true));
    geometry.setIndex(new THREE.BufferAttribute(model.indices, 1));
    return new THREE.Mesh(geometry, new THREE.MeshBasicMaterial({ side: THREE.DoubleSide }));
  }

  /** Shows a class on each triangle: 0 for none. Without classes the surface is plain. */
  mark(mesh, kinds) {
    const shared = mesh.userData.shared;
    if (mesh.geometry !== shared) mesh.geometry.dispose();
    mesh.geometry = shared;
    if (kinds) {
      const parted = shared.toNonIndexed();
      const each = new Float32Array(3 * kinds.length);
      for (let t = 0; t < kinds.length; t++) each.fill(kinds[t], 3 * t, 3 * t + 3);
      parted.setAttribute('kind', new THREE.BufferAttribute(each, 1));
      mesh.geometry = parted;
    }

    this.changed();
  }

  remove(object) {
    object.traverse(child => {
      child.geometry?.dispose();
      child.userData.shared?.dispose();
      this.#materials.delete(child.material);
      child.material?.dispose();
    });
    object.removeFromParent();
    this.changed();
  }

  /** All of what is shown, from the usual side. */
  frame(box) {
    const sphere = box.getBoundingSphere(new THREE.Sphere());
    this.view.settle(sphere.center.toArray(), Math.max(sphere.radius, 0.5), FIELD * Math.min(1, this.camera.aspect));
    this.changed();
  }

  /** A word at a place; `null` takes it away. */
  label(id, at, words, kind = '') {
    this.#marks.get(id)?.element.remove();
    this.#marks.delete(id);
    if (at) {
      const element = document.createElement('span');
      element.className = `look-mark ${kind}`;
      element.textContent = words;
      this.labels.append(element);
      this.#marks.set(id, { element, at: new THREE.Vector3(...at) });
    }

    this.changed();
  }

  /** The place on a surface under a point of the canvas. */
  pick(x, y) {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    const ray = new THREE.Raycaster();
    this.#place();
    ray.setFromCamera(new THREE.Vector2(2 * x / width - 1, 1 - 2 * y / height), this.camera);
    return ray.intersectObjects(this.parts.children, true)[0] ?? null;
  }

  changed() {
    if (this.#asked) return;
    this.#asked = true;
    requestAnimationFrame(() => {
      this.#asked = false;
      this.draw();
      this.box.dispatchEvent(new CustomEvent('look:drawn'));
    });
  }

  draw() {
    this.#place();
    this.renderer.render(this.scene, this.camera);
    const { clientWidth: width, clientHeight: height } = this.canvas;
    for (const { element, at } of this.#marks.values()) {
      const p = at.clone().project(this.camera);
      element.hidden = p.z > 1 || Math.abs(p.x) > 1 || Math.abs(p.y) > 1;
      element.style.transform = `translate(${(p.x + 1) / 2 * width}px, ${(1 - p.y) / 2 * height}px)`;
    }
  }

  dispose() {
    for (const dispose of this.#disposals) dispose();
    for (const group of [this.parts, this.extras]) for (const child of [...group.children]) this.remove(child);
    this.renderer.dispose();
    this.canvas.remove();
    this.labels.remove();
  }

  #ink(material) {
    for (let k = 0; k < 4; k++) material.userData.tints.value[k].set(tintOf(k + 1));
  }

  #place() {
    const { view, camera } = this;
    const { towards, across, upright } = view.axes();
    camera.position.set(...view.target.map((t, i) => t + view.distance * towards[i]));
    camera.lookAt(...view.target);
    camera.near = Math.max(0.05, view.distance - 4 * view.radius);
    camera.far = view.distance + 8 * view.radius;
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    this.lamps.quaternion.setFromRotationMatrix(new THREE.Matrix4().makeBasis(new THREE.Vector3(...across), new THREE.Vector3(...upright), new THREE.Vector3(...towards)));
  }

  #fit() {
    const { clientWidth: width, clientHeight: height } = this.box;
    if (!width || !height) return;
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    this.changed();
  }
}

export { THREE };
