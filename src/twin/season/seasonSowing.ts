/** A lot to be sown in the season test. */
export interface SeasonSowing { readonly crop: string; readonly sowDate: string; readonly seeds: number; readonly plants: number; readonly inBasinOn: string }
