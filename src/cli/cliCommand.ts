import type { Outcome } from '../science/refusal.ts';

/** A command is an object: its name, what it takes, and what it does. */
export interface CliCommand {
  readonly name: string;
  /** The one argument, as shown in the help: "DIR" or "FILE". */
  readonly argument: string;
  /** One plain sentence. */
  readonly summary: string;
  readonly options: readonly CliOption[];
  readonly run: (argument: string, options: GivenOptions, world: ProgramWorld) => Promise<Outcome<CommandAnswer>>;
}

export interface CliOption { readonly flags: string; readonly summary: string }

/** Option values by name in camel case: a text, or true for a switch. */
export type GivenOptions = Readonly<Record<string, string | boolean | undefined>>;

/** What a command has to say. */
export interface CommandAnswer {
  /** The one value that --json prints. */
  readonly json: unknown;
  /** The same for people. */
  readonly sheet: string;
}

/** Everything that a command gets from outside. */
export interface ProgramWorld {
  readonly writeOut: (text: string) => void;
  readonly writeErr: (text: string) => void;
  /** UTC instant, ISO 8601 with Z. */
  readonly nowAt: () => string;
  /** Connection string of a PostgreSQL server to be used instead of the embedded one. */
  readonly serverUrl?: string;
  /** Resolves when the person asks the program to stop. */
  readonly stopAsked: Promise<void>;
}
