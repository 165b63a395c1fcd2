/** A code to begin with: the first letters of the crop's name and the day, "SB-260414" for sweet basil. */
export function lotCode(cropTitle: string, date: string): string {
  const words = cropTitle.replace(/[^A-Za-z ]/g, '').trim().split(/\s+/).filter((word) => word !== '');
  const letters = words.length > 1 ? words.slice(0, 2).map((word) => word[0]!).join('') : (words[0] ?? 'lot').slice(0, 2);
  return `${letters.toUpperCase()}-${date.slice(2).replaceAll('-', '')}`;
}
