import type { BasinType, GreenhouseFile } from './schema/greenhouseFile.ts';

export interface BasinPlace { readonly id: string; readonly type: BasinType; readonly bay: string }

/** The basins that the file's groups stand for, in file order. A group of an unknown type gives none (refused where the folder is read). */
export function basinsOf(file: GreenhouseFile): readonly BasinPlace[] {
  return file.basins.flatMap((group) => {
    const type = file.basinTypes.find((each) => each.id === group.type);
    if (type === undefined) return [];
    return Array.from({ length: group.count }, (_, i) => ({ id: `${group.prefix}${String(group.first + i).padStart(group.digits, '0')}`, type, bay: group.bay }));
  });
}
