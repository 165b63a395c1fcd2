/** Units in words of the plan as they are printed: "50 um" as "50 µm", "mJ/cm2" as "mJ/cm²". */
export const printedUnits = (words: string): string => words.replaceAll(/(\d) um\b/g, '$1 µm').replaceAll('cm2', 'cm²');
