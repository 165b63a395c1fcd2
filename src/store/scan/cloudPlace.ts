/** Where clouds arrive: a folder, or a bucket of S3-compatible storage. Throws a PlaceFault where the place cannot be used now. */
export interface CloudPlace {
  /** In words for a person. */
  readonly words: string;
  /** Whether a cloud of this name comes from here. */
  readonly owns: (name: string) => boolean;
  /** What lies there and is complete, by name; undefined where it is not time to look again. */
  readonly list: () => Promise<readonly ListedCloud[] | undefined>;
  /** Text of the JSON file beside a cloud; undefined where there is none. */
  readonly beside: (name: string) => Promise<string | undefined>;
  /** A file on this machine with the bytes of the cloud; undefined where it is gone. */
  readonly fetch: (name: string) => Promise<string | undefined>;
  /** The file is not needed for now. */
  readonly rest: (name: string) => Promise<void>;
  /** The file is never needed again. */
  readonly drop: (name: string) => Promise<void>;
  /** Ends what is under way. */
  readonly close: () => void;
}

export interface ListedCloud {
  /** In the folder a plain file name; in a bucket BUCKET/KEY. */
  readonly name: string;
  readonly bytes: number;
  /** When it, or what lies beside it, was last changed; ms since 1970. */
  readonly modifiedMs: number;
}
