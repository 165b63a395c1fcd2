import type { PlantMeasure } from './measurePlants.ts';

/** The figures that a scan gives of a plant that is there, without its place: what journal, watching and pages carry on. PlantMeasure says what each is. */
export type PlantFigures = Omit<PlantMeasure, 'raft' | 'position' | 'present'>;
