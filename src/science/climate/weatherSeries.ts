/** Looking into weather as read: a value, or the reason why there is none. */
import type { WeatherColumn, WeatherQuantity, WeatherSeries } from './types.ts';

/** Value of a quantity in an hour; undefined where the file has none. An hour outside the series is a caller's mistake and throws. */
export function valueAt(series: WeatherSeries, quantity: WeatherQuantity, hour: number): number | undefined {
  if (!(hour >= 0 && hour < series.hours)) throw new RangeError(`hour ${hour} is outside the ${series.hours} hours of ${series.fileName}`);
  const column = series.columns[quantity];
  return column === undefined || column.absent.has(hour) ? undefined : column.values[hour];
}

/** Why a quantity has no value in an hour; undefined where it has one. */
export function whyAbsent(series: WeatherSeries, quantity: WeatherQuantity, hour: number): string | undefined {
  const column = series.columns[quantity];
  return column === undefined ? `${series.fileName} has no ${quantity}` : column.absent.get(hour);
}

/** Number of hours with a value. */
export const countPresent = (series: WeatherSeries, quantity: WeatherQuantity): number => {
  const column = series.columns[quantity];
  return column === undefined ? 0 : series.hours - column.absent.size;
};

/** A column under construction: values come in by hour, the rest is absent. */
export class ColumnBuilder {
  readonly values: Float64Array;
  readonly absent = new Map<number, string>();

  constructor(hours: number) {
    this.values = new Float64Array(hours);
  }

  set(hour: number, value: number): void {
    this.values[hour] = value;
  }

  miss(hour: number, reason: string): void {
    this.absent.set(hour, reason);
    this.values[hour] = Number.NaN; // never read: valueAt looks at `absent` first
  }

  build(): WeatherColumn {
    return { values: this.values, absent: this.absent };
  }
}
