/** Triangles with an owner each: plant index from 0, or one of the things below. Millimetres in the basin's frame. */
export interface Mesh {
  readonly corners: number[];
  readonly owners: number[];
}

export const RAFT = -1;
export const RIM = -2;
export const WATER = -3;

export const emptyMesh = (): Mesh => ({ corners: [], owners: [] });

export type Corner = readonly [x: number, y: number, z: number];

export function addTriangle(mesh: Mesh, owner: number, a: Corner, b: Corner, c: Corner): void {
  mesh.corners.push(...a, ...b, ...c);
  mesh.owners.push(owner);
}

export function addQuad(mesh: Mesh, owner: number, a: Corner, b: Corner, c: Corner, d: Corner): void {
  addTriangle(mesh, owner, a, b, c);
  addTriangle(mesh, owner, a, c, d);
}
