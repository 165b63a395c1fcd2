/** Parameters of the reduced-state tomato model (Jones, Kenig & Vallejos 1999). */
import type { ParameterTable } from './growthModel.ts';

const JONES_1999 = 'Jones, Kenig & Vallejos 1999, Trans. ASAE 42:255-265, read in two public transcriptions, not in the paper itself';
const JONES_1991 = 'Jones, Dayan, Allen, van Keulen & Challa 1991, Trans. ASAE 34:663-672, read in public transcriptions, not in the paper itself';
const MEMORY = 'from memory, unverified (as in the spreadsheet to Jones et al. 1999)';

export const REDUCED_TOMATO_PARAMETERS: ParameterTable = [
  { symbol: 'N_m', name: 'node rate', unit: 'd-1', default: 0.5, min: 0.1, max: 1.5, meaning: 'Nodes a day at the best temperature', source: JONES_1999 },
  { symbol: 'delta', name: 'leaf area per node', unit: 'm2', default: 0.038, min: 0.005, max: 0.2, meaning: 'Largest leaf area that a node adds to a plant', source: JONES_1999 },
  { symbol: 'beta', name: 'steepness of leaf area', unit: '1', default: 0.169, min: 0.05, max: 0.5, meaning: 'How quickly leaf area per node comes to its largest', source: JONES_1999 },
  { symbol: 'N_b', name: 'nodes to half leaf area', unit: '1', default: 16, min: 0, max: 40, meaning: 'Nodes at which a node adds half of its largest leaf area', source: JONES_1999 },
  { symbol: 'LAI_max', name: 'leaf area kept', unit: 'm2/m2', default: 4, min: 1, max: 8, meaning: 'Leaf area index above which old leaves are taken off', source: JONES_1999 },
  { symbol: 'E', name: 'growth efficiency', unit: 'g/g', default: 0.717, min: 0.4, max: 0.9, meaning: 'Dry mass per gram of sugar', source: JONES_1999 },
  { symbol: 'Q10', name: 'maintenance per 10 K', unit: '1', default: 1.4, min: 1, max: 3, meaning: 'Factor on maintenance for 10 K more', source: JONES_1999 },
  { symbol: 'r_m', name: 'maintenance', unit: 'd-1', default: 0.016, min: 0, max: 0.05, meaning: 'Sugar used per gram of dry mass and day at 20 C', source: JONES_1999 },
  { symbol: 'D', name: 'carbon dioxide to sugar', unit: 'g.s/umol/d', default: 2.593, min: 2, max: 3, meaning: 'Grams of sugar a day for one micromole of carbon dioxide a second', source: JONES_1991 },
  { symbol: 'K', name: 'light extinction', unit: '1', default: 0.58, min: 0.3, max: 1, meaning: 'Extinction of light per unit of leaf area', source: JONES_1991 },
  { symbol: 'm', name: 'light through a leaf', unit: '1', default: 0.1, min: 0, max: 0.3, meaning: 'Share of light that a leaf lets through', source: JONES_1991 },
  { symbol: 'Q_e', name: 'quantum yield', unit: 'umol/umol', default: 0.0645, min: 0.02, max: 0.12, meaning: 'Carbon dioxide per photon in weak light', source: JONES_1999 },
  { symbol: 'tau', name: 'carbon dioxide use', unit: 'umol/m2/s/[ppm]', default: 0.0693, min: 0.02, max: 0.15, meaning: 'Largest assimilation of a leaf per ppm of carbon dioxide; a straight line up to about 500 ppm', source: JONES_1999 },
  { symbol: 'p_1', name: 'leaves taken off', unit: 'g', default: 2, min: 0, max: 10, meaning: 'Dry mass taken off per plant and node once the leaf area is kept', source: JONES_1999 },
  { symbol: 'V_max', name: 'largest vegetative growth', unit: 'g', default: 8, min: 2, max: 20, meaning: 'Most dry mass that leaves and stem take per plant and node', source: JONES_1999 },
  { symbol: 'alpha_F', name: 'share to fruit', unit: '1', default: 0.8, min: 0.3, max: 1, meaning: 'Largest share of new growth that goes to fruit', source: JONES_1999 },
  { symbol: 'nu', name: 'steepness of fruiting', unit: '1', default: 0.135, min: 0.02, max: 0.6, meaning: 'How quickly fruit comes to its largest share, per node', source: JONES_1999 },
  { symbol: 'N_FF', name: 'nodes to first fruit', unit: '1', default: 22, min: 5, max: 40, meaning: 'Nodes at which the first fruit is set', source: JONES_1999 },
  { symbol: 'kappa_F', name: 'nodes to ripeness', unit: '1', default: 5, min: 0, max: 30, meaning: 'Nodes from the first fruit to the first ripe fruit', source: JONES_1999 },
  { symbol: 'T_crit', name: 'hot day', unit: 'Cel', default: 24.4, min: 20, max: 35, meaning: 'Mean daytime temperature above which fruit is lost', source: JONES_1999 },
  { symbol: 'hot_loss', name: 'loss on hot days', unit: 'Cel-1', default: 0.154, min: 0, max: 0.5, meaning: 'Share of fruit growth lost per degree above that, at most 91 %', source: JONES_1999 },
  { symbol: 'T_fruit', name: 'cold for fruit', unit: 'Cel', default: 8, min: 0, max: 15, meaning: 'Mean temperature at which fruit begins to grow, fully 16 K above it', source: MEMORY },
  { symbol: 'root_start', name: 'share to roots at first', unit: '1', default: 0.18, min: 0, max: 0.5, meaning: 'Share of growth to roots at no nodes', source: MEMORY },
  { symbol: 'root_per_node', name: 'fall of the share to roots', unit: '1', default: 0.0032, min: 0, max: 0.02, meaning: 'Its fall per node, down to 2 %', source: MEMORY },
  { symbol: 'N_start', name: 'nodes at planting', unit: '1', default: 6, min: 0, max: 20, meaning: 'Nodes on the stem when the state begins', source: 'common practice, no source' },
];
