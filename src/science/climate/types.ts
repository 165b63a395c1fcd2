/**
 * The records that flow through the climate models: weather as read, weather without gaps, a bay, its climate inside.
 *
 * Time: every hourly array counts hours from `startUtcMs`; entry i stands for the interval
 * [startUtcMs + i h, startUtcMs + (i + 1) h). Clocks are local *standard* time all year, never summer time.
 */

/** Where the weather was observed. Longitude east positive, latitude north positive. */
export interface WeatherPlace {
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly elevationM: number;
  /** Local standard time minus UTC, hours. */
  readonly utcOffsetH: number;
}

/** Start and length of hourly arrays, with what is needed to turn an hour into a local date. */
export interface HourGrid {
  /** Start of the first hour, milliseconds since 1970-01-01T00:00Z. */
  readonly startUtcMs: number;
  readonly utcOffsetH: number;
  readonly hours: number;
}

export const WEATHER_QUANTITIES = [
  'airC', 'dewPointC', 'rhPct', 'pressurePa', 'skyIrWM2', 'globalWM2', 'directNormalWM2', 'diffuseWM2', 'windMS', 'co2Ppm',
] as const;
export type WeatherQuantity = (typeof WEATHER_QUANTITIES)[number];

/** One quantity, hour by hour. Read it with `valueAt`; where `absent` has the hour, `values` is meaningless. */
export interface WeatherColumn {
  readonly values: Float64Array;
  /** Hour -> why there is no value. */
  readonly absent: ReadonlyMap<number, string>;
}

/** Weather as a file states it, gaps included. `completeWeather` makes it usable by the models. */
export interface WeatherSeries extends HourGrid {
  readonly fileName: string;
  readonly place: WeatherPlace;
  /** A typical year is stitched from months of different years: its dates are a calendar, not a history. */
  readonly kind: 'typical-year' | 'dated';
  /** Whether airC, dewPointC, rhPct, pressurePa and windMS are values at the hour's end (EPW) or means over the hour. */
  readonly airValues: 'at-hour-end' | 'hour-mean';
  /** A quantity that the file does not have at all is not in here. */
  readonly columns: Readonly<Partial<Record<WeatherQuantity, WeatherColumn>>>;
}

/** Hourly means without a gap: what the models take. Arrays have `hours` finite entries each. */
export interface CompleteWeather extends HourGrid {
  readonly place: WeatherPlace;
  readonly kind: 'typical-year' | 'dated';
  /** What it was made from, for the reader: file name, gaps filled, quantities derived. */
  readonly origin: readonly string[];
  readonly airC: Float64Array;
  readonly rhPct: Float64Array;
  readonly pressurePa: Float64Array;
  /** Global radiation on the horizontal, mean over the hour. */
  readonly globalWM2: Float64Array;
  /** Diffuse part of it. */
  readonly diffuseWM2: Float64Array;
  readonly windMS: Float64Array;
  readonly co2Ppm: Float64Array;
}

/** A coefficient that rises with wind: calm + perMS x wind. */
interface WindLine {
  readonly calm: number;
  readonly perMS: number;
}

/** Lamps above the crop and the rule that switches them. Hours are local standard time, 0 to 24. */
export interface LampDesign {
  /** Photon flux density the lamps give at the crop when fully on. */
  readonly ppfdUmolM2S: number;
  /** Micromoles of photosynthetic photons per joule of electricity, at the crop. */
  readonly efficacyUmolJ: number;
  readonly onFromH: number;
  readonly onUntilH: number;
  /** Lamps stay off in hours with more outdoor global radiation than this. */
  readonly offAboveGlobalWM2: number;
  /** Lamps go off once the day's light integral above the crop has reached this. Absent: no target. */
  readonly targetDliMolM2?: number;
}

/** An energy screen and the rule that closes it. */
interface ScreenDesign {
  /** Heat loss of cover and closed screen together, W per m2 cover and K. */
  readonly uWM2K: WindLine;
  /** Share of light that passes the closed screen. */
  readonly parTransmissivity: number;
  /** Closed when it is colder outside than this by day, or by night. */
  readonly closesBelowDayC: number;
  readonly closesBelowNightC: number;
}

/** What the climate model needs to know about a bay. See `glassBay` for a sourced default of each entry. */
export interface BayDesign {
  /** Light that passes cover and structure: cover (0 to 1) x structure (0 to 1). */
  readonly coverTransmissivity: number;
  readonly structureTransmissivity: number;
  /** m2 of cover per m2 of floor. */
  readonly coverToFloor: number;
  /** Heat loss of the open (unscreened) cover, W per m2 cover and K. */
  readonly uWM2K: WindLine;
  readonly screen?: ScreenDesign;
  /** Mean height of the air space: m3 of air per m2 floor. */
  readonly airHeightM: number;
  /** Air through chinks, m3 per m2 floor and s, per m/s of wind; it moves vapour and carbon dioxide, its heat is in `uWM2K`. */
  readonly leakagePerMS: number;
  /** Area of the roof vents, m2 per m2 floor. */
  readonly ventAreaToFloor: number;
  readonly heatDayC: number;
  readonly heatNightC: number;
  /** Vents begin to open this far above the heating set-point. */
  readonly ventAboveHeatK: number;
  /** Vents open above this relative humidity too. */
  readonly rhMaxPct: number;
  /** Carbon dioxide set-point while there is light and vents are shut. Absent: no dosing. */
  readonly co2SetPpm?: number;
  /** Largest dose, grams per m2 and hour. */
  readonly co2DoseGM2H: number;
  /** Share of outdoor global radiation that warms the air inside. */
  readonly usefulSunShare: number;
  /** Share of lamp electricity that replaces heating. */
  readonly usefulLampShare: number;
  readonly lamps?: LampDesign;
  /** The crop that stands in it, as far as it moves humidity and carbon dioxide. */
  readonly leafAreaIndex: number;
  /** Share of the floor that the canopy covers, 0 to 1. */
  readonly groundCover: number;
}

/** Climate above the crop, hour by hour; each array has `hours` finite entries. */
export interface InsideClimate extends HourGrid {
  readonly airC: Float64Array;
  readonly rhPct: Float64Array;
  readonly co2Ppm: Float64Array;
  /** Sun and lamps together, above the crop, mean over the hour. */
  readonly ppfdUmolM2S: Float64Array;
  /** The lamps' part of it. */
  readonly lampPpfdUmolM2S: Float64Array;
  /** Heat to be delivered, Wh per m2 floor in the hour. */
  readonly heatWhM2: Float64Array;
  /** Lamp electricity, Wh per m2 floor in the hour. */
  readonly lampWhM2: Float64Array;
  /** Carbon dioxide dosed, grams per m2 floor in the hour. */
  readonly co2DoseGM2: Float64Array;
  /** Which of airC (1), rhPct (2), co2Ppm (4), ppfdUmolM2S (8) were measured, not simulated: a sum of these bits an hour. */
  readonly measured: Uint8Array;
}

/** Measured climate above the crop on its own hours; an absent array was not measured at all, NaN is refused on entry. */
export interface MeasuredClimate extends HourGrid {
  readonly airC?: WeatherColumn;
  readonly rhPct?: WeatherColumn;
  readonly co2Ppm?: WeatherColumn;
  readonly ppfdUmolM2S?: WeatherColumn;
}

/** What one hour of canopy transpiration depends on. */
export interface CanopyHour {
  readonly airC: number;
  readonly rhPct: number;
  readonly ppfdUmolM2S: number;
  /** One-sided leaf area per floor area. */
  readonly leafAreaIndex: number;
  /** Share of the floor that the canopy covers, 0 to 1. */
  readonly groundCover: number;
}
