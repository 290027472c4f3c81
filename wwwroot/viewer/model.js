// Fetches what the server makes for the viewer, and reads its models: glTF 2.0 binary with quantised positions, as this site writes it.

import { inLanguage, t } from '../words/words.js';

const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;

/** Something that is made when it is first asked for: asks again until it is there. `waiting` is told that it takes a while. */
export async function ask(address, signal, waiting) {
  for (let pause = 400; ; pause = Math.min(2000, pause * 1.5)) {
    const answer = await fetch(inLanguage(address), { headers: { Accept: 'application/json' }, signal });
    if (answer.status === 202) {
      waiting?.();
      await new Promise(resolve => setTimeout(resolve, pause));
      continue;
    }

    const said = await answer.json().catch(() => null);
    if (answer.ok) return said;
    throw new Error(said?.detail ?? t('The server answered with {0}. Try again in a moment.', answer.status));
  }
}

/** A model: positions in the file's millimetres, normals, and three numbers a triangle. */
export async function load(address, signal) {
  const answer = await fetch(address, { signal });
  if (!answer.ok) throw new Error(t('The model did not arrive ({0}). Load the page again.', answer.status));
  return read(await answer.arrayBuffer());
}

export function read(buffer) {
  const words = new DataView(buffer);
  if (words.getUint32(0, true) !== MAGIC || words.getUint32(16, true) !== JSON_CHUNK) throw new Error(t('The model cannot be read.'));
  const length = words.getUint32(12, true);
  const told = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 20, length)));
  const start = 28 + length;
  const node = told.nodes.find(n => n.mesh !== undefined);
  const primitive = told.meshes[node.mesh].primitives[0];
  const place = accessor => {
    const view = told.bufferViews[accessor.bufferView];
    return { at: start + (view.byteOffset ?? 0) + (accessor.byteOffset ?? 0), stride: view.byteStride };
  };

  const position = told.accessors[primitive.attributes.POSITION];
  const count = position.count;
  const positions = new Float32Array(3 * count);
  const steps = new Uint16Array(buffer, place(position).at, count * place(position).stride / 2);
  const [x, y, z] = node.translation;
  const step = node.scale[0];
  for (let i = 0, from = 0; i < positions.length; i += 3, from += place(position).stride / 2) {
    positions[i] = x + step * steps[from];
    positions[i + 1] = y + step * steps[from + 1];
    positions[i + 2] = z + step * steps[from + 2];
  }

  const normal = told.accessors[primitive.attributes.NORMAL];
  const normals = new Int8Array(3 * count);
  const bytes = new Int8Array(buffer, place(normal).at, 4 * count);
  for (let i = 0; i < count; i++) normals.set(bytes.subarray(4 * i, 4 * i + 3), 3 * i);

  const index = told.accessors[primitive.indices];
  const indices = index.componentType === 5125
    ? new Uint32Array(buffer, place(index).at, index.count)
    : new Uint16Array(buffer, place(index).at, index.count);
  return { positions, normals, indices };
}

/** The bytes of a base64 text: one a triangle. */
export function bytesOf(text) {
  const raw = atob(text);
  const bytes = new Uint8Array(raw.length);
  for (let i = 0; i < raw.length; i++) bytes[i] = raw.charCodeAt(i);
  return bytes;
}
