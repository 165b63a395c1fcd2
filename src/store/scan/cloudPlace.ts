/** Where clouds arrive: a folder, or a bucket of S3-compatible storage. */
export interface CloudPlace {
  /** In words for a person. */
  readonly words: string;
  /** What lies there and is complete, by name. */
  readonly list: () => Promise<readonly ListedCloud[]>;
  /** Text of the JSON file beside a cloud; undefined where there is none. */
  readonly beside: (name: string) => Promise<string | undefined>;
  /** A file on this machine with the bytes of the cloud; `release` when it is no longer needed. */
  readonly fetch: (name: string) => Promise<{ readonly path: string; readonly release: () => Promise<void> }>;
}

export interface ListedCloud {
  readonly name: string;
  readonly bytes: number;
  /** When it, or what lies beside it, was last changed; ms since 1970. */
  readonly modifiedMs: number;
}
