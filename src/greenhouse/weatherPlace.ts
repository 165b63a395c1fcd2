import { Temporal } from 'temporal-polyfill';
import type { WeatherPlace } from '../science/climate/types.ts';
import type { GreenhouseFile } from './schema/greenhouseFile.ts';

/** Where the greenhouse's own weather.csv was observed: at the greenhouse, in its standard (winter) time. */
export function weatherPlaceOf(file: GreenhouseFile): WeatherPlace {
  const { latitudeDeg, longitudeDeg, elevationM, timeZone } = file.location;
  return { name: file.name, latitudeDeg, longitudeDeg, elevationM, utcOffsetH: standardOffsetH(timeZone) };
}

/** Hours that local standard time is ahead of UTC: the smaller of the offsets in mid-January and mid-July of a fixed year. */
export function standardOffsetH(timeZone: string): number {
  const offset = (month: number) => Temporal.PlainDateTime.from({ year: 2025, month, day: 15, hour: 12 }).toZonedDateTime(timeZone).offsetNanoseconds / 3.6e12;
  return Math.min(offset(1), offset(7));
}
