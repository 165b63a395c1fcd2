export { boxSum } from './boxSum';
export { bareCells, countEmpty, countSurfaces, coverCells, findStains, nearestRafts, readCells, takeStains } from './cells';
export { queueBytes, spread, trimFringe } from './flood';
export { countHeights, groupCells, heightBelow, outline, plantSums } from './plants';
export { addPoints, mergeField, readFloats } from './points';
export { countAlong, movePoints, pickBand, planeCost, planeMoments, planeSquares, rimMoments, slabMoments } from './pose';
