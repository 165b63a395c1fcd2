/** The one table of refusal codes: what each means and what to do about it. docs/refusals.md is generated from it. */
export const REFUSAL_CODES = {
  'value-out-of-range': { meaning: 'A number lies outside what is allowed or what the model is valid for.', remedy: 'Correct the number, or check its unit.' },
  'value-not-a-number': { meaning: 'A number was expected and something else, NaN or infinity was found.', remedy: 'Write a plain decimal number with a point.' },
  'value-missing': { meaning: 'A required value is absent.', remedy: 'Fill it in; the JSON Schema of the file lists what is required.' },
  'value-not-allowed': { meaning: 'The value is not one of the allowed words or forms.', remedy: 'Use one of the words listed in the message.' },
  'key-unknown': { meaning: 'A key or column is not known here.', remedy: 'Remove it or correct its spelling.' },
  'reference-unknown': { meaning: 'Something is named that is not described anywhere.', remedy: 'Describe it, or correct the name.' },
  'duplicate': { meaning: 'Two entries claim the same identity.', remedy: 'Give each its own id, or remove one.' },
  'file-missing': { meaning: 'A required file is not in the folder.', remedy: 'Add the file; `watermeadow demo DIR` writes an example of each.' },
  'file-unreadable': { meaning: 'A file is not readable text of its kind.', remedy: 'Save it as UTF-8 text in the form that the documentation shows.' },
  'syntax': { meaning: 'The file breaks the grammar of its format.', remedy: 'Mend the place that is named.' },
  'inconsistent': { meaning: 'Two statements contradict each other.', remedy: 'Correct one of them.' },
  'not-converged': { meaning: 'A calculation did not reach its tolerance, so there is no result.', remedy: 'Check the input for impossible values; report it if they are right.' },
  'infeasible': { meaning: 'No answer satisfies all limits at once.', remedy: 'Loosen the limit that is named, or change what is available.' },
  'incompatible-products': { meaning: 'Two products must not meet in one concentrated tank.', remedy: 'Put them into different tanks, as the message says.' },
  'not-soluble': { meaning: 'More of a product is asked for than dissolves, or a salt would come out of solution.', remedy: 'Lower the concentration factor, warm the store, or spread the product over the tanks.' },
  'cloud-format-unknown': { meaning: 'A point cloud is in a format, or a variant of one, that is not read.', remedy: 'Export it as PLY, PCD 0.7, LAS 1.2 to 1.4 or LAZ.' },
  'cloud-length-wrong': { meaning: 'A point cloud is longer or shorter than its header says; nothing of it was kept.', remedy: 'Copy or export the file again: it was probably cut short on the way.' },
  'cloud-point-unsound': { meaning: 'A point of a cloud has a coordinate that is not a finite number or lies absurdly far away; nothing of the cloud was kept.', remedy: 'Let the export leave out invalid points.' },
  'cloud-size-absurd': { meaning: 'A cloud has too few points to measure plants, or more than can be handled.', remedy: 'Check that the right file was chosen; thin out or crop a cloud that is too large.' },
  'folder-in-use': { meaning: 'Another program has this greenhouse folder open.', remedy: 'Use or stop the one that is named.' },
  'state-conflict': { meaning: 'The command does not fit the present state of the greenhouse.', remedy: 'Look at the present state and repeat what still applies.' },
  'not-permitted': { meaning: 'The role of this person does not include this action.', remedy: 'Ask somebody whose role does.' },
  'usage': { meaning: 'The command line is not understood.', remedy: 'See `watermeadow help`.' },
} as const satisfies Record<string, { meaning: string; remedy: string }>;

export type RefusalCode = keyof typeof REFUSAL_CODES;
