import type { CropCard } from '../schema/cropCard.ts';
import type { GreenhouseFile } from '../schema/greenhouseFile.ts';
import type { ProductsFile } from '../schema/productsFile.ts';
import type { AnalysisRow, LotRow, OrderLine, ReadingRow, SampleRow, SowingRow } from '../schema/tableRows.ts';
import type { ReadRow } from './readTableFile.ts';
import type { ReadYaml } from './readYamlFile.ts';

/** A greenhouse folder that was read without an error. */
export interface GreenhouseFolder {
  readonly file: GreenhouseFile;
  readonly crops: readonly CropCard[];
  readonly products: ProductsFile;
  readonly orders: readonly OrderLine[];
  readonly lots: readonly LotRow[];
  /** Absent where the folder has no sowings.csv: then nothing is said of trays. */
  readonly sowings?: readonly SowingRow[];
  readonly readings: readonly ReadingRow[];
  readonly samples: readonly SampleRow[];
  readonly analyses: readonly AnalysisRow[];
  readonly weather: { readonly fileName: string; readonly text: string };
}

/** The same with the places of everything, for checks that look across files. A part that could not be read is absent. */
export interface ReadFolder {
  readonly greenhouse?: ReadYaml<GreenhouseFile>;
  readonly crops: readonly ReadYaml<CropCard>[];
  readonly products?: ReadYaml<ProductsFile>;
  readonly orders?: readonly ReadRow<OrderLine>[];
  readonly lots?: readonly ReadRow<LotRow>[];
  readonly sowings?: readonly ReadRow<SowingRow>[];
  readonly readings?: readonly ReadRow<ReadingRow>[];
  readonly samples?: readonly ReadRow<SampleRow>[];
  readonly analyses?: readonly ReadRow<AnalysisRow>[];
}
