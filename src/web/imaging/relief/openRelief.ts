import { CanvasTexture, LinearFilter, Mesh, MeshBasicMaterial, PerspectiveCamera, Scene, SRGBColorSpace, Vector3, WebGLRenderer } from 'three';
import type { HeightPicture } from '../picture/heightPicture.ts';
import type { PointStretch } from '../picture/readPoints.ts';
import type { Rgb } from '../picture/ramp.ts';
import { hitHeights } from './hitHeights.ts';
import { eyeOf, type Orbit } from './orbit.ts';
import { pacePoints } from './pacePoints.ts';
import { pointsObject, type PointsObject } from './pointsObject.ts';
import { surfaceGeometry } from './surfaceGeometry.ts';

/** A basin in relief on a canvas. */
export interface Relief {
  /** `painted`: the picture from above, which is the texture of the surface; `heights`: a scale that colours points by height. */
  readonly colour: (painted: HTMLCanvasElement, plants: readonly (Rgb | undefined)[], heights: { readonly table: Uint8Array; readonly topMm: number } | undefined) => void;
  readonly addPoints: (stretch: PointStretch) => void;
  readonly pointsLoaded: () => number;
  readonly show: (what: 'surface' | 'points') => void;
  readonly look: (orbit: Orbit) => void;
  readonly resize: (width: number, height: number) => void;
  /** Cell of the height field under a place on the canvas, both coordinates from -1 to 1. */
  readonly cellUnder: (x: number, y: number) => number | undefined;
  readonly close: () => void;
}

const PAPER = 0xfffefa;

/** Opens a relief; throws where the device has no WebGL 2. `drawn` is told how many points stand in the picture after each drawing. */
export function openRelief(canvas: HTMLCanvasElement, picture: HeightPicture, plantCount: number, drawn: (points: number) => void): Relief {
  const renderer = new WebGLRenderer({ canvas, antialias: false, preserveDrawingBuffer: true, powerPreference: 'low-power' });
  renderer.setPixelRatio(Math.min(1.5, window.devicePixelRatio));
  renderer.setClearColor(PAPER);
  renderer.autoClear = false;
  const scene = new Scene(), camera = new PerspectiveCamera(38, 1, 50, 20_000);
  camera.up.set(0, 0, 1);
  const geometry = surfaceGeometry(picture), material = new MeshBasicMaterial();
  const surface = new Mesh(geometry, material);
  scene.add(surface);
  let points: PointsObject | undefined;
  let colours: Parameters<PointsObject['colour']> = [[], undefined];
  const pace = pacePoints({
    all: () => (points?.object.visible === true ? points.loaded() : 0),
    draw(from, count, fresh) {
      if (fresh) renderer.clear();
      points?.drawStretch(from, count);
      renderer.render(scene, camera);
      drawn(from + count);
    },
  });
  const redraw = (): void => pace.moved();
  return {
    colour(painted, plants, heights) {
      material.map?.dispose();
      material.map = new CanvasTexture(painted);
      material.map.colorSpace = SRGBColorSpace;
      material.map.generateMipmaps = false;
      material.map.minFilter = LinearFilter;
      material.needsUpdate = true;
      colours = [plants, heights];
      points?.colour(...colours);
      redraw();
    },
    addPoints(stretch) {
      if (points === undefined) {
        points = pointsObject(stretch.header, plantCount);
        points.object.visible = !surface.visible;
        points.colour(...colours);
        scene.add(points.object);
      }
      points.add(stretch);
      pace.more();
    },
    pointsLoaded: () => points?.loaded() ?? 0,
    show(what) {
      surface.visible = what === 'surface';
      if (points !== undefined) points.object.visible = what === 'points';
      redraw();
    },
    look(orbit) {
      camera.position.set(...eyeOf(orbit));
      camera.lookAt(orbit.atXMm, orbit.atYMm, 0);
      points?.size(Math.max(1.5, (picture.cellMm * canvas.height) / (1.4 * orbit.farMm)));
      redraw();
    },
    resize(width, height) {
      renderer.setSize(width, height, false);
      camera.aspect = width / height;
      camera.updateProjectionMatrix();
      redraw();
    },
    cellUnder(x, y) {
      camera.updateMatrixWorld();
      const there = new Vector3(x, y, 0.5).unproject(camera);
      const [eyeX, eyeY, eyeZ] = camera.position.toArray();
      return hitHeights(picture, [eyeX, eyeY, eyeZ], [there.x - eyeX, there.y - eyeY, there.z - eyeZ]);
    },
    close() {
      pace.close();
      geometry.dispose();
      material.map?.dispose();
      material.dispose();
      points?.dispose();
      renderer.dispose();
    },
  };
}
