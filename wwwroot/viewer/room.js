// The printer's build volume: its edges and the plate with a line every centimetre.

import { THREE } from './stage.js';
import { token } from './tints.js';

/** Around the origin in x and y, the plate at z = 0; mm. */
export function room({ round, width, depth, height }) {
  const group = new THREE.Group();
  const points = [];
  const line = (a, b) => points.push(...a, ...b);
  const [w, d] = [width / 2, depth / 2];
  if (round) {
    const at = (i, z) => [w * Math.cos(i * Math.PI / 36), w * Math.sin(i * Math.PI / 36), z];
    for (let i = 0; i < 72; i++) {
      line(at(i, 0), at(i + 1, 0));
      line(at(i, height), at(i + 1, height));
      if (i % 18 === 0) line(at(i, 0), at(i, height));
    }
  } else {
    for (const z of [0, height]) {
      line([-w, -d, z], [w, -d, z]);
      line([w, -d, z], [w, d, z]);
      line([w, d, z], [-w, d, z]);
      line([-w, d, z], [-w, -d, z]);
    }

    for (const [x, y] of [[-w, -d], [w, -d], [w, d], [-w, d]]) line([x, y, 0], [x, y, height]);
  }

  group.add(lines(points, token('--action')));
  const rules = [];
  for (let x = Math.ceil(-w / 10) * 10; x < w; x += 10) {
    const y = round ? Math.sqrt(Math.max(0, w * w - x * x)) : d;
    rules.push(x, -y, 0, x, y, 0);
  }

  for (let y = Math.ceil(-d / 10) * 10; y < d; y += 10) {
    const x = round ? Math.sqrt(Math.max(0, w * w - y * y)) : w;
    rules.push(-x, y, 0, x, y, 0);
  }

  group.add(lines(rules, token('--line-strong')));
  return group;
}

export function lines(points, colour) {
  const geometry = new THREE.BufferGeometry();
  geometry.setAttribute('position', new THREE.Float32BufferAttribute(points, 3));
  return new THREE.LineSegments(geometry, new THREE.LineBasicMaterial({ color: new THREE.Color(colour) }));
}

/** A rotation of nine numbers, row after row, as three.js has it. */
export function turned(rowMajor) {
  const [a, b, c, d, e, f, g, h, i] = rowMajor;
  return new THREE.Matrix4().set(a, b, c, 0, d, e, f, 0, g, h, i, 0, 0, 0, 0, 1);
}
