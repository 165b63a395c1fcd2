import type { FigureSource } from '../morningPlan.ts';

export interface SourceFacts {
  readonly solver: string;
  readonly solverVersion: string;
  readonly weather: readonly string[];
  readonly measured: readonly string[];
  readonly members: number;
  readonly seed: number;
  readonly iterations: number;
  readonly models: readonly string[];
  readonly upToSequence: number;
}

/** What the figures of a plan were computed from, by the ids that `why` fields use. */
export function figureSources(facts: SourceFacts): Record<string, FigureSource> {
  const journal = `journal up to entry ${facts.upToSequence}`;
  return {
    'water-balance': {
      title: 'Water of a basin', method: 'Last filling (or level and conductivity where none was recorded), less what the crop transpired and took up since; levels and conductivities correct it according to their uncertainty, and teach how this basin differs from the models. Readings beyond 3.5 standard deviations are flagged, not used.',
      model: 'water balance with one-dimensional Kalman updates', version: '1', inputs: [journal, 'readings of the basin', 'uptake table of the crop card', ...facts.weather],
      citations: ['Kalman 1960, J. Basic Eng. 82:35-45', 'Graamans et al. 2017, Agric. Syst. 153:138-147 (transpiration)', 'conductivity: Debye-Hueckel-Onsager per ion, CRC limiting conductivities'],
    },
    'tank-count': {
      title: 'Contents of a tank', method: 'Return tanks: last analysis and level, plus what was drained into them and less what was drawn, corrected by levels, conductivities and analyses according to their uncertainty; what cannot be reconciled is flagged with its likeliest cause. Where salts are heading: mass balance of basins and tanks, day by day, with the flows on record (or of today\'s plan) going on; crops take up what their card says, and none of what it does not name.',
      model: 'tank balance with one-dimensional Kalman updates', version: '1', inputs: [journal, 'readings and analyses of the tanks', 'fillings and washes of today\'s plan'],
      citations: ['Kalman 1960, J. Basic Eng. 82:35-45', 'Savvas et al. 2005, Eur. J. Hort. Sci. (abstract): salts level off where uptake meets the make-up', 'limits: crop cards'],
    },
    'water-account': {
      title: 'Water account', method: 'Double entry: every filling, drain and wash that is done books where its water and ions came from and went; the open balances of all basins are counted as closed now. Closed per place and component to rounding; what readings corrected stands as unexplained.',
      inputs: [journal, 'balances of the basins', 'contents of the tanks'], citations: ['conservation of mass'],
    },
    climate: {
      title: 'Climate above the crop', method: 'Measured where the bay has readings, else simulated hour by hour from the weather file, set-points and lamps of the bay.',
      inputs: [...facts.weather, ...facts.measured], citations: ['Vanthoor 2011, table 8.2 and eq. 8.71', 'Katzin et al. 2021'],
    },
    forecast: {
      title: 'Weight and readiness of a lot', method: `Growth model run as ${facts.members} members from planting, corrected by the lot's own samples, then ahead on the outlook climate. Quantiles are over members.`,
      model: facts.models.join(', '), version: '1', inputs: [journal, 'samples of the lot', 'crop card', 'climate above the crop', `seed ${facts.seed}`], citations: ['Van Henten 1994, Agric. Syst. 45:55-72 (two-state lettuce)', 'Goudriaan & Monteith 1990, Ann. Bot. 66:695-701 (expolinear)'],
    },
    feed: {
      title: 'Feed', method: 'Cheapest mix for all basins of the day at once, within the bands of the crop card: a linear programme solved to its proven optimum, made to last a week of the expected uptake, and checked by full speciation (conductivity, pH at a basin\'s carbon dioxide, saturation); the bound beside the cost comes from its dual prices.',
      model: facts.solver, version: facts.solverVersion, inputs: ['analyses of the sources', 'what the stocks were made from', 'prices and limits of greenhouse.yaml', 'water of the basin'],
      citations: ['Dantzig 1963, Linear Programming and Extensions', 'speciation: Truesdell & Jones 1974, Plummer & Busenberg 1982, NIST 46', 'carbon dioxide of a basin 10^-2.7 atm: common practice, no source'],
    },
    'mixing-sheet': {
      title: 'Mixing sheet', method: 'Grams a litre of greenhouse.yaml, or of the recipe, times the litres to be made; water first, acid into it, salts from much to little, chelates last. Refused where products must be kept apart, where more than 75 % of what dissolves at the coldest store temperature is asked for, or where gypsum, brushite or struvite would come out. Stocks lie outside the activity models: their saturation is known to about 0.3, and the limits keep that margin.',
      inputs: ['greenhouse.yaml: products of the tank, coldest temperature of the store', 'fertilisers.yaml: salt, purity, density', 'level of the tank'],
      citations: ['solubility per litre: Giri 2015 (manufacturers\' fertigation table); per 100 g of water: CRC Handbook (from memory)', 'order of work, first fill of 60 %, 75 % of the solubility: common practice, no source', 'storage classes: common safety data sheets (from memory); the sheet of the product decides'],
    },
    recipe: {
      title: 'Recipe of concentrates', method: 'Micro-nutrients first, then main salts and acid together, each as the non-negative least-squares solution weighted by the target: exact wherever the products allow it. Acid takes alkalinity down to what holds the middle of the crop\'s pH band at a basin\'s carbon dioxide. Conductivity and pH of the finished feed by full speciation.',
      inputs: ['table of the crop card', 'latest analysis of the water', 'fertilisers.yaml: salt, purity, price'],
      citations: ['Lawson & Hanson 1974, Solving Least Squares Problems (algorithm)', 'speciation: Truesdell & Jones 1974, Plummer & Busenberg 1982, NIST 46', 'carbon dioxide of a basin 10^-2.7 atm: common practice, no source'],
    },
    returned: {
      title: 'Where drained solution goes', method: 'Today\'s batches, what the return tanks hold and the feeds expected in the next 7 days as one pooling problem: fresh water, fertiliser, treatment and discharge together, within room, salt limits, holds and the permit; solved by branch and bound on groups of like batches, then batch by batch. Cost and bound are for the days ahead, not for today.',
      model: facts.solver, version: facts.solverVersion, inputs: ['water of the basins', 'analyses of the tanks', 'stages and water use of the lots', 'prices, treatment and permit of greenhouse.yaml'],
      citations: ['Haverly 1978, ACM SIGMAP Bull. 25:19-28', 'Tawarmalani & Sahinidis 2002 (pq-formulation)', 'McCormick 1976, Math. Prog. 10:147-175', 'UV-C: 100 and 250 mJ/cm2, Runia 1995 (from memory)'],
    },
    schedule: {
      title: 'Times of visits', method: 'Vehicles, stations, waiting places, breaks and windows are all respected; the order is improved by trying changes. The bound is the largest of the load of stations, the load of vehicles and the longest visit.',
      model: 'day schedule', version: '1', inputs: ['floor, stations and vehicles of greenhouse.yaml', 'visits of the day', `${facts.iterations} changes tried`, `seed ${facts.seed}`], citations: ['Bilge & Ulusoy 1995, Oper. Res. 43:1058-1070 (the problem)'],
    },
    orders: {
      title: 'Chance of an order', method: 'Futures in which every lot follows one quantile of its forecast; lines are served in order of due day from the oldest lots that are ready; a lot whose mean plant passes its latest weight is cut that day and serves lines only as long as the crop keeps. The chance is the share of futures in which the line is filled in full.',
      inputs: [journal, 'forecasts of the lots', 'orders'], citations: ['common random numbers: Glasserman & Yao 1992, Manage. Sci. 38:884-908'],
    },
    actions: {
      title: 'What could be done', method: 'Each candidate is grown to harvest by the lot\'s own ensemble with the same chance as doing nothing, so that futures differ by what is done alone; its orders are served beside all other lots in every future. Gain: units short (price times the shortage factor), electricity of the whole bay, fertiliser, work, clearing, basin days, against doing nothing. A lot that passes its latest weight is cut. Best first by the mean over futures.',
      inputs: ['forecasts of the lots', 'orders', 'prices of greenhouse.yaml and the crop card', 'climate above the crop, simulated again with the lamps changed', 'weather: one typical year, its spread is not in the intervals', `seed ${facts.seed}`],
      citations: ['common random numbers: Glasserman & Yao 1992, Manage. Sci. 38:884-908', 'value of a look: Raiffa & Schlaifer 1961, Applied Statistical Decision Theory, chapter 4', 'intervals of chances: Wilson 1927, J. Am. Stat. Assoc. 22:209-212', 'error of a scan 15 %, 5 plants a sample, lamps at most 20 h: own choice'],
    },
    decision: { title: 'Decision', method: 'A person decided it on the page of the lot; the journal has who, when and why.', inputs: [journal], citations: [] },
    'imaging-interval': { title: 'Imaging', method: 'The shorter interval of greenhouse.yaml and the crop card, counted from the last image or from the day the plants came.', inputs: [journal], citations: ['common practice, no source'] },
    'stage-plan': { title: 'Moving on', method: 'Planned duration of the stage from the day the plants came into the basin.', inputs: [journal, 'crop card'], citations: ['crop card'] },
    'harvest-plan': { title: 'Harvest', method: 'Orders that leave today and tomorrow, served from the oldest lots that are ready, basin by basin.', inputs: ['forecasts of the lots', 'orders', 'crop card'], citations: ['crop card'] },
    'washing-rule': { title: 'Washing', method: 'A basin is washed after its crop was taken out.', inputs: [journal, 'greenhouse.yaml'], citations: ['common practice, no source'] },
    account: {
      title: 'The day in sums', method: 'Feeds and ways as planned; lamps from the simulated day. Emissions: electricity by the factor of greenhouse.yaml, mains water, products at plant gate, driving by rolling resistance. Heating is left out.',
      inputs: ['feeds', 'schedule', 'climate above the crop', 'greenhouse.yaml', 'fertilisers.yaml'], citations: ['UK Government conversion factors 2025 (water)', 'products: as stated in fertilisers.yaml; 1 kg/kg where none is stated (from memory, unverified)', 'rolling resistance 0.02: common practice, no source'],
    },
  };
}
