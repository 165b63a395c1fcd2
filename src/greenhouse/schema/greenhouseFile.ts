import { z } from 'zod';
import { band, clockTime, count, countOr, identifier, quantity, quantityOr, timeZoneName, words } from './quantity.ts';

const PRACTICE = 'common practice, no source';

export const STATION_KINDS = ['filling', 'imaging', 'transplanting', 'harvest', 'washing'] as const;
export type StationKind = (typeof STATION_KINDS)[number];

export const ROLES = ['grower', 'lead', 'operator', 'inspector', 'manager'] as const;
export type Role = (typeof ROLES)[number];

const location = z.strictObject({
  latitudeDeg: quantity({ unit: 'deg', min: -66, max: 66, meaning: 'Latitude, north positive' }),
  longitudeDeg: quantity({ unit: 'deg', min: -180, max: 180, meaning: 'Longitude, east positive' }),
  elevationM: quantity({ unit: 'm', min: -400, max: 4000, meaning: 'Height above sea level' }),
  timeZone: timeZoneName,
});

const person = z.strictObject({ id: identifier, name: words('Name as printed on tickets'), role: z.enum(ROLES) });

const shift = z.strictObject({
  start: clockTime,
  end: clockTime,
  breaks: z.array(z.strictObject({ from: clockTime, to: clockTime })).default([]).meta({ description: 'Times when no station is served' }),
});

const lamps = z.strictObject({
  ppfdUmolM2S: quantity({ unit: 'umol/(m2.s)', min: 0, max: 1500, meaning: 'Photon flux density of all lamps at crop height' }),
  efficacyUmolPerJ: quantity({ unit: 'umol/J', min: 0.5, max: 4.5, meaning: 'Photons per joule of electricity', source: 'Kusuma, Pattison & Bugbee 2020: practical limit about 4.1' }),
  targetDliMolM2: quantity({ unit: 'mol/(m2.d)', min: 0, max: 40, meaning: 'Daily light integral that the lamps fill up to' }),
  hoursPerDayMax: quantityOr({ unit: 'h', min: 0, max: 24, default: 16, meaning: 'Longest photoperiod', source: PRACTICE }),
  onBelowGlobalWm2: quantityOr({ unit: 'W/m2', min: 0, max: 1200, default: 200, meaning: 'Lamps burn only while outdoor global radiation is below this', source: PRACTICE }),
});

const bay = z.strictObject({
  id: identifier,
  title: words('Name on plans and pages'),
  kind: z.enum(['nursery', 'glass']),
  floorM2: quantity({ unit: 'm2', min: 1, max: 200_000, meaning: 'Floor area' }),
  parTransmissivity: quantity({ unit: '1', min: 0.02, max: 0.95, meaning: 'Share of outdoor PAR that reaches crop height: cover, structure and dirt together', source: 'Vanthoor 2011, table 8.2: 0.85 glass x 0.9 structure = 0.765' }),
  coverToFloor: quantityOr({ unit: '1', min: 1, max: 4, default: 1.3, meaning: 'Cover area per floor area', source: 'Katzin et al. 2021: 1.21 for 4 ha' }),
  heightM: quantityOr({ unit: 'm', min: 2, max: 12, default: 5, meaning: 'Mean height of the air volume', source: PRACTICE }),
  setPoints: z.strictObject({
    airDayC: quantity({ unit: 'Cel', min: 0, max: 40, meaning: 'Heating set-point by day' }),
    airNightC: quantity({ unit: 'Cel', min: 0, max: 40, meaning: 'Heating set-point by night' }),
    ventAboveC: quantityOr({ unit: 'Cel', min: 5, max: 45, default: 25, meaning: 'Vents open above', source: PRACTICE }),
    rhMaxPct: quantityOr({ unit: '%', min: 40, max: 100, default: 87, meaning: 'Relative humidity at which air is exchanged', source: 'Katzin et al. 2021: 87 %' }),
    co2Ppm: quantityOr({ unit: '[ppm]', min: 300, max: 2000, default: 420, meaning: 'CO2 by day', source: PRACTICE }),
  }),
  lamps: lamps.optional(),
});

const point = z.tuple([z.number().min(-5000).max(5000), z.number().min(-5000).max(5000)]);

/** Berths left and right of parallel aisles that are joined by a lane at both ends. Expands to nodes, edges and berths. */
const berthGrid = z.strictObject({
  bay: identifier,
  prefix: identifier.meta({ description: 'Berths are named PREFIX aisle side number: E2L07' }),
  originM: point.meta({ description: 'x, y of the first aisle node in metres', unit: 'm' }),
  aisles: count({ min: 1, max: 60, meaning: 'Number of aisles' }),
  berthsPerSide: count({ min: 1, max: 100, meaning: 'Berths along one side of an aisle' }),
  aislePitchM: quantity({ unit: 'm', min: 2, max: 20, meaning: 'Distance between aisles, in x' }),
  berthPitchM: quantity({ unit: 'm', min: 0.8, max: 10, meaning: 'Distance between berths along the aisle, in y' }),
});

/** Most berths and basins of one greenhouse: several hundred are usual; beyond this a number was mistyped. */
const MOST_BASINS = 10_000;

const floor = z.strictObject({
  nodes: z.array(z.strictObject({ id: identifier, atM: point.meta({ description: 'x, y in metres', unit: 'm' }) })).max(20_000).default([]),
  edges: z.array(z.strictObject({
    from: identifier, to: identifier,
    oneWay: z.boolean().default(false).meta({ description: 'Vehicles go from `from` to `to` only' }),
  })).max(60_000).default([]),
  grids: z.array(berthGrid).max(200)
    .refine((grids) => grids.reduce((sum, grid) => sum + 2 * grid.aisles * grid.berthsPerSide, 0) <= MOST_BASINS, { message: `grids of at most ${MOST_BASINS} berths together` })
    .default([]),
  berths: z.array(z.strictObject({ id: identifier, node: identifier, bay: identifier })).max(MOST_BASINS).default([]),
});

const station = z.strictObject({
  id: identifier,
  title: words('Name on plans and pages'),
  kind: z.enum(STATION_KINDS),
  node: identifier,
  places: count({ min: 1, max: 20, meaning: 'Basins worked on at once' }),
  queuePlaces: count({ min: 0, max: 40, meaning: 'Basins that may wait beside the station' }),
  service: z.strictObject({
    fixedS: quantity({ unit: 's', min: 0, max: 7200, meaning: 'Time for each basin whatever its content' }),
    perPlantS: quantityOr({ unit: 's', min: 0, max: 600, default: 0, meaning: 'Time for each plant handled' }),
    flowLPerMin: quantity({ unit: 'L/min', min: 1, max: 2000, meaning: 'Filling or draining flow' }).optional(),
  }),
  crew: countOr({ min: 0, max: 50, default: 1, meaning: 'People who work there' }),
});

const vehicle = z.strictObject({
  id: identifier,
  title: words('Name on plans and pages'),
  home: identifier.meta({ description: 'Node where it stands at the start of a shift' }),
  speedEmptyMS: quantity({ unit: 'm/s', min: 0.05, max: 5, meaning: 'Speed without a basin' }),
  speedLoadedMS: quantity({ unit: 'm/s', min: 0.05, max: 3, meaning: 'Speed with a basin' }),
  pickS: quantity({ unit: 's', min: 0, max: 600, meaning: 'Time to lift a basin' }),
  dropS: quantity({ unit: 's', min: 0, max: 600, meaning: 'Time to set a basin down' }),
  maximumLoadKg: quantity({ unit: 'kg', min: 10, max: 20_000, meaning: 'Heaviest load it may carry' }),
});

const basinType = z.strictObject({
  id: identifier,
  lengthMm: quantity({ unit: 'mm', min: 200, max: 12_000, meaning: 'Inner length' }),
  widthMm: quantity({ unit: 'mm', min: 200, max: 6000, meaning: 'Inner width' }),
  depthMm: quantity({ unit: 'mm', min: 30, max: 1000, meaning: 'Water depth when full' }),
  emptyKg: quantity({ unit: 'kg', min: 1, max: 3000, meaning: 'Weight without water, rafts and plants' }),
  rafts: count({ min: 1, max: 60, meaning: 'Rafts that float in it' }),
  raftKg: quantityOr({ unit: 'kg', min: 0, max: 50, default: 1.5, meaning: 'Weight of one raft', source: PRACTICE }),
  levelMinShare: quantityOr({ unit: '1', min: 0.2, max: 1, default: 0.8, meaning: 'Lowest permitted share of the full volume while plants stand in it', source: PRACTICE }),
  raftsAlong: count({ min: 1, max: 60, meaning: 'Rafts in a row along the length, a number that divides rafts; where absent, what makes rafts nearest to square' }).optional(),
  raftGapMm: quantityOr({ unit: 'mm', min: 0, max: 200, default: 10, meaning: 'Width of the gap between two rafts', source: PRACTICE }),
  rimAboveRaftsMm: quantityOr({ unit: 'mm', min: 0, max: 600, default: 60, meaning: 'Height of the rim over the surface of the rafts when full: scans measure plants from there', source: PRACTICE }),
});

const basinGroup = z.strictObject({
  prefix: identifier,
  first: countOr({ min: 0, max: 99_999, default: 1, meaning: 'Number of the first basin' }),
  count: count({ min: 1, max: 5000, meaning: 'How many' }),
  digits: countOr({ min: 1, max: 6, default: 3, meaning: 'Digits of the number' }),
  type: identifier,
  bay: identifier.meta({ description: 'They stand in this bay, in the order of its berths' }),
});

const uvC = z.strictObject({
  against: z.enum(['fungi and bacteria', 'viruses']).default('fungi and bacteria').meta({ description: 'What has to be killed: 100 mJ/cm2 for fungi and bacteria, 250 for viruses', source: 'Runia 1995 (from memory)' }),
  lampUvcW: quantity({ unit: 'W', min: 0.1, max: 20_000, meaning: 'UV-C output of all lamps at 254 nm when new (not their electric power)' }),
  agedShare: quantityOr({ unit: '1', min: 0.1, max: 1, default: 0.65, meaning: 'Share of that output that still reaches the water with aged lamps and a sleeve that is not quite clean', source: PRACTICE }),
  layerCm: quantity({ unit: 'cm', min: 0.1, max: 30, meaning: 'Thickness of the water around the lamp sleeve' }),
  flowLPerMin: quantity({ unit: 'L/min', min: 0.1, max: 2000, meaning: 'Flow through the chamber' }),
  absorbance254PerCm: quantityOr({ unit: '/cm', min: 0.001, max: 10, default: 0.5, meaning: 'Decadic absorbance at 254 nm of the solution, where no analysis states it', source: PRACTICE }),
  ironLossShare: quantityOr({ unit: '1', min: 0, max: 1, default: 0.2, meaning: 'Share of the chelated iron that the light destroys; feeds put it back', source: 'chelates break in UV: Acher et al. 1997, J. Hort. Sci. 72:117-123; Albano & Miller 2001, HortScience 36:313-316; the share: from memory, unverified: measure it' }),
});

const heat = z.strictObject({
  temperatureC: quantity({ unit: 'Cel', min: 40, max: 140, meaning: 'Temperature at which the solution is held' }),
  holdS: quantity({ unit: 's', min: 1, max: 3600, meaning: 'Time for which it is held' }),
});

/** What returned solution goes through between its tank and a basin. */
const treatment = z.strictObject({
  filterUm: quantity({ unit: 'um', min: 0.01, max: 1000, meaning: 'Mesh of the filter before the lamp or heater', source: 'GPN "Water disinfection": 50 to 70 um' }).optional(),
  uvC: uvC.optional(),
  heat: heat.optional(),
  testEveryDays: countOr({ min: 0, max: 60, default: 0, meaning: 'The tank is held until a test for pathogens not older than this is back and clear (column pathogens of water-analyses.csv); 0: no test is asked for', source: PRACTICE }),
});

const source = z.strictObject({
  id: identifier,
  title: words('Name on tickets'),
  kind: z.enum(['fresh', 'stock', 'return', 'acid', 'base']),
  capacityL: quantity({ unit: 'L', min: 1, max: 1e7, meaning: 'Volume of the tank, or what the pipe gives in a shift' }),
  availableL: quantity({ unit: 'L', min: 0, max: 1e7, meaning: 'Volume at hand this morning where no level reading says otherwise' }),
  costPerM3: quantityOr({ unit: '1/m3', min: 0, max: 10_000, default: 0, meaning: 'Price of the water itself in the greenhouse currency' }),
  pumpMinimumL: quantityOr({ unit: 'L', min: 0, max: 100, default: 0, meaning: 'Smallest dose the pump can measure' }),
  perBasinMaxL: quantity({ unit: 'L', min: 0, max: 10_000, meaning: 'Hard limit for one filling; no plan, user or message exceeds it' }).optional(),
  products: z.record(identifier, z.number().min(0).max(1500)).optional()
    .meta({ description: 'Stock, acid or base made up here: grams of each product per litre of finished stock', unit: 'g/L' }),
  treatment: treatment.optional(),
});

const prices = z.strictObject({
  currency: z.string().length(3).meta({ description: 'ISO 4217 code' }),
  dischargePerM3: quantityOr({ unit: '1/m3', min: 0, max: 1000, default: 0, meaning: 'Cost of discharging spent solution' }),
  electricityPerKWh: quantityOr({ unit: '1/kW.h', min: 0, max: 10, default: 0, meaning: 'Price of electricity' }),
  electricityKgCo2ePerKWh: quantityOr({ unit: 'kg/kW.h', min: 0, max: 2, default: 0.473, meaning: 'Emission factor of electricity, location based', source: 'Ember yearly data, world 473 g/kWh' }),
  waterKgCo2ePerM3: quantityOr({ unit: 'kg/m3', min: 0, max: 5, default: 0.1913, meaning: 'Emission factor of mains water supply', source: 'UK Government conversion factors 2025' }),
});

/** How sowing is planned: what the manager promises, when people sow, what things cost. */
const sowing = z.strictObject({
  serviceLevel: quantityOr({ unit: '1', min: 0.5, max: 0.999, default: 0.97, meaning: 'Chance with which each order line is to leave complete and on the day', source: PRACTICE }),
  weekdays: z.array(z.number().int().min(1).max(7)).min(1).max(7).default([1, 4]).meta({ description: 'Days of the week on which lots are sown, 1 is Monday' }),
  ordersKnownDays: quantityOr({ unit: 'd', min: 0, max: 400, default: 28, meaning: 'Days ahead for which the order book is complete; beyond them orders like those of the last weeks are expected', source: PRACTICE }),
  overgrownRisk: quantityOr({ unit: '1', min: 0.01, max: 0.6, default: 0.2, meaning: 'Largest chance that a lot has grown past its best on a day on which it is planned to be cut', source: PRACTICE }),
  reserveShare: quantityOr({ unit: '1', min: 0, max: 0.5, default: 0.03, meaning: 'Share of the basins of a bay that is not planned with', source: PRACTICE }),
  turnaroundDays: quantityOr({ unit: 'd', min: 0, max: 14, default: 1, meaning: 'Days that a basin is washed and filled between two lots', source: PRACTICE }),
  workdaysPerWeek: quantityOr({ unit: 'd', min: 1, max: 7, default: 6, meaning: 'Shifts a week', source: PRACTICE }),
  wagePerHour: quantityOr({ unit: '1/h', min: 0, max: 500, default: 16, meaning: 'Cost of an hour of work in the greenhouse currency', source: PRACTICE }),
  basinCostPerWeek: quantityOr({ unit: '1', min: 0, max: 1000, default: 1.5, meaning: 'Water, fertiliser, washing and wear of a planted basin in a week, light apart', source: PRACTICE }),
  lampKWhPerWeekMax: quantity({ unit: 'kW.h', min: 0, max: 1e7, meaning: 'Most electricity that lamps may use in a week, all bays together' }).optional(),
  shortageFactor: quantityOr({ unit: '1', min: 0, max: 100, default: 4, meaning: 'What a unit short costs, in prices of the unit', source: PRACTICE }),
  wasteCostPerKg: quantityOr({ unit: '1/kg', min: 0, max: 100, default: 0.15, meaning: 'Cost of clearing a kilogram that nobody buys', source: PRACTICE }),
});

/** A bucket of S3-compatible storage from which clouds are taken beside the folder scans/. Keys come from the environment only. */
const bucket = z.strictObject({
  endpoint: z.string().max(300).regex(/^https?:\/\/[A-Za-z0-9.-]+(:\d{1,5})?(\/[\w.~/-]*)?$/, { message: 'an address like https://storage.example.org:9000, without name and password' }).meta({ description: 'Address of the storage' }),
  name: z.string().regex(/^[a-z0-9][a-z0-9.-]{1,61}[a-z0-9]$/, { message: '3 to 63 small letters, digits, - and .' }).meta({ description: 'Name of the bucket', source: 'Amazon S3 user guide, bucket naming rules' }),
  prefix: z.string().max(500).default('').meta({ description: 'Only objects whose keys begin so are looked at' }),
  region: z.string().regex(/^[a-z0-9-]{1,40}$/, { message: 'small letters, digits and - only' }).default('us-east-1').meta({ description: 'Region that signatures name; storage without regions usually takes the default' }),
  addressing: z.enum(['path', 'host']).default('path').meta({ description: 'path: ENDPOINT/BUCKET/KEY; host: BUCKET.ENDPOINT/KEY' }),
  lookEveryS: quantityOr({ unit: 's', min: 1, max: 86_400, default: 30, meaning: 'The bucket is listed so often', source: PRACTICE }),
});

const imaging = z.strictObject({ bucket: bucket.optional() });

/** What the permit allows to be discharged. */
const discharge = z.strictObject({
  nitrateMaxMmolPerL: quantity({ unit: 'mmol/L', min: 0, max: 100, meaning: 'Highest nitrate of a batch that may be discharged' }).optional(),
  nitrateMaxKgPerDay: quantity({ unit: 'kg/d', min: 0, max: 10_000, meaning: 'Most nitrate, as nitrogen, that may be discharged in a day' }).optional(),
});

/** greenhouse.yaml: the place, what stands in it and what it is allowed to do. */
export const greenhouseFile = z.strictObject({
  id: identifier,
  name: words('Name of the greenhouse'),
  location,
  people: z.array(person).min(1),
  shift,
  bays: z.array(bay).min(1),
  floor,
  stations: z.array(station).min(1),
  vehicles: z.array(vehicle).min(1),
  basinTypes: z.array(basinType).min(1),
  basins: z.array(basinGroup).min(1).max(1000)
    .refine((groups) => groups.reduce((sum, group) => sum + group.count, 0) <= MOST_BASINS, { message: `at most ${MOST_BASINS} basins together` }),
  sources: z.array(source).min(1),
  prices,
  sowing: sowing.prefault({}),
  discharge: discharge.default({}),
  imaging: imaging.default({}).meta({ description: 'Where point clouds come from beside the folder scans/' }),
  imagingEveryDays: countOr({ min: 1, max: 60, default: 7, meaning: 'A basin with plants is imaged at least this often', source: PRACTICE }),
  washAfterHarvest: z.boolean().default(true).meta({ description: 'A basin is washed after its crop is harvested' }),
  orderPickHour: clockTime.default('12:00').meta({ description: 'Orders leave at this time of their due day' }),
  storeColdestC: quantityOr({ unit: 'Cel', min: 0, max: 30, default: 10, meaning: 'Coldest temperature of the room where stock tanks stand: what must stay dissolved', source: PRACTICE }),
  waterCBand: band({ unit: 'Cel', min: 0, max: 40, meaning: 'Water temperature in which basins are kept' }).default([16, 25]),
}).meta({ title: 'greenhouse.yaml', description: 'The greenhouse: location, bays, floor, stations, vehicles, basins, sources of water' });

export type GreenhouseFile = z.output<typeof greenhouseFile>;
export type BayDescription = GreenhouseFile['bays'][number];
export type StationDescription = GreenhouseFile['stations'][number];
export type VehicleDescription = GreenhouseFile['vehicles'][number];
export type BasinType = GreenhouseFile['basinTypes'][number];
export type SourceDescription = GreenhouseFile['sources'][number];
export type BucketSettings = NonNullable<GreenhouseFile['imaging']['bucket']>;
export type DischargeLimits = GreenhouseFile['discharge'];
export type Person = GreenhouseFile['people'][number];
