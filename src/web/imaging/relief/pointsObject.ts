import { BufferAttribute, BufferGeometry, DataTexture, GLSL3, NearestFilter, Points, RawShaderMaterial, RGBAFormat, Vector3 } from 'three';
import type { PointsHeader } from '../../../desk/contract.ts';
import type { PointStretch } from '../picture/readPoints.ts';
import type { Rgb } from '../picture/ramp.ts';

/** All points of a scan on the graphics card, 16 bit a coordinate, filled stretch by stretch. */
export interface PointsObject {
  readonly object: Points;
  readonly add: (stretch: PointStretch) => void;
  /** Points that are there. */
  readonly loaded: () => number;
  readonly drawStretch: (from: number, count: number) => void;
  /** Colours of plants, laid over what the camera saw; undefined leaves a plant as seen. A scale of heights goes before both. */
  readonly colour: (plants: readonly (Rgb | undefined)[], heights: { readonly table: Uint8Array; readonly topMm: number } | undefined) => void;
  readonly size: (px: number) => void;
  readonly dispose: () => void;
}

/** Plants a row of the texture that holds their colours. */
const ROW = 1024;

const CORNERS = `
in vec4 position; in vec3 tint;
uniform mat4 modelViewMatrix, projectionMatrix;
uniform vec3 low, span; uniform float px, topMm;
uniform sampler2D plants, heights;
out vec3 shown;
void main() {
  vec3 at = low + span * position.xyz;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(at, 1.0);
  gl_PointSize = px;
  int label = int(position.w * 65535.0 + 0.5);
  vec4 plant = label == 0 ? vec4(0.0) : texelFetch(plants, ivec2((label - 1) % ${ROW}, (label - 1) / ${ROW}), 0);
  float light = 0.5 + dot(tint, vec3(0.4, 0.8, 0.2));
  shown = mix(tint, plant.rgb * min(1.15, light), plant.a);
  if (topMm > 0.0) shown = texelFetch(heights, ivec2(int(clamp(at.z / topMm, 0.0, 1.0) * 255.0), 0), 0).rgb;
}`;
const DOTS = 'precision mediump float; in vec3 shown; out vec4 colour; void main() { colour = vec4(shown, 1.0); }';

export function pointsObject({ kept, lowMm, highMm }: PointsHeader, plantCount: number): PointsObject {
  const places = new BufferAttribute(new Uint16Array(4 * kept), 4, true), tints = new BufferAttribute(new Uint8Array(3 * kept), 3, true);
  const rows = Math.max(1, Math.ceil(plantCount / ROW));
  const plants = texture(new Uint8Array(4 * ROW * rows), ROW, rows), heights = texture(new Uint8Array(4 * 256), 256, 1);
  const geometry = new BufferGeometry().setAttribute('position', places).setAttribute('tint', tints);
  geometry.setDrawRange(0, 0);
  const material = new RawShaderMaterial({ glslVersion: GLSL3, vertexShader: CORNERS, fragmentShader: DOTS, uniforms: {
    low: { value: new Vector3(...lowMm) }, span: { value: new Vector3(...highMm.map((high, k) => high - lowMm[k]!)) }, px: { value: 2 }, topMm: { value: 0 }, plants: { value: plants }, heights: { value: heights } } });
  const object = new Points(geometry, material);
  object.frustumCulled = false;
  let loaded = 0;
  return {
    object,
    loaded: () => loaded,
    add({ header, places: more, tints: colours }) {
      (places.array as Uint16Array).set(more, 4 * header.from);
      (tints.array as Uint8Array).set(colours, 3 * header.from);
      for (const [attribute, size] of [[places, 4], [tints, 3]] as const) { attribute.addUpdateRange(size * header.from, size * header.count); attribute.needsUpdate = true; }
      loaded = Math.max(loaded, header.from + header.count);
    },
    drawStretch: (from, count) => geometry.setDrawRange(from, Math.max(0, Math.min(count, loaded - from))),
    colour(colours, scale) {
      colours.forEach((colour, i) => plants.image.data!.set(colour === undefined ? [0, 0, 0, 0] : [...colour, 255], 4 * i));
      plants.needsUpdate = true;
      material.uniforms.topMm!.value = scale?.topMm ?? 0;
      if (scale === undefined) return;
      for (let i = 0; i < 256; i += 1) heights.image.data!.set([scale.table[3 * i]!, scale.table[3 * i + 1]!, scale.table[3 * i + 2]!, 255], 4 * i);
      heights.needsUpdate = true;
    },
    size: (px) => { material.uniforms.px!.value = px; },
    dispose() { geometry.dispose(); material.dispose(); plants.dispose(); heights.dispose(); },
  };
}

function texture(pixels: Uint8Array<ArrayBuffer>, width: number, height: number): DataTexture {
  const is = new DataTexture(pixels, width, height, RGBAFormat);
  is.minFilter = NearestFilter;
  is.magFilter = NearestFilter;
  is.needsUpdate = true;
  return is;
}
