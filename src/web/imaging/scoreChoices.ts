import type { ScoreClass } from '../../desk/contract.ts';
import type { Rgb } from './picture/ramp.ts';

/** How a grower's judgement is called, drawn and typed: the letter stands on the picture and is the key. */
export interface ScoreChoice {
  readonly class: Exclude<ScoreClass, 'unscored'>;
  readonly word: string;
  readonly letter: string;
  readonly meaning: string;
  readonly colour: Rgb;
}

/** Colours differ in lightness too; the letter says it without them. Meanings: common practice, no source. */
export const SCORE_CHOICES: readonly ScoreChoice[] = [
  { class: 'good', word: 'Good', letter: 'G', meaning: 'as it should be', colour: [143, 190, 176] },
  { class: 'slow', word: 'Slow', letter: 'S', meaning: 'smaller than its age', colour: [226, 193, 122] },
  { class: 'tip-burn', word: 'Tip-burn', letter: 'T', meaning: 'brown edges of young leaves', colour: [138, 74, 32] },
  { class: 'pale', word: 'Pale', letter: 'P', meaning: 'lighter or yellower than its fellows', colour: [244, 228, 158] },
  { class: 'stretched', word: 'Stretched', letter: 'R', meaning: 'taller than it is wide', colour: [120, 158, 201] },
  { class: 'damaged', word: 'Damaged', letter: 'D', meaning: 'torn, broken or eaten', colour: [108, 92, 128] },
  { class: 'diseased', word: 'Diseased', letter: 'I', meaning: 'rot, mould, spots', colour: [58, 36, 44] },
  { class: 'own', word: 'Own words', letter: 'O', meaning: 'anything else, as you say it', colour: [176, 170, 160] },
];

export const choiceOf = (is: ScoreClass | undefined): ScoreChoice | undefined => SCORE_CHOICES.find((choice) => choice.class === is);
