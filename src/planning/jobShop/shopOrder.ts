/**
 * A plan without its times: what is chosen, and in which order everything happens. The times follow (timeOrder), each as
 * early as the order allows.
 */
export interface ShopOrder {
  /** Token 2 o: the job is carried to operation o; token 2 o + 1: operation o runs. Each once, a job's in its own order. */
  readonly tokens: Int32Array;
  /** Chosen alternative of each operation. */
  readonly alternative: Int32Array;
  /** Vehicle that carries the job to each operation; not read where the job stays at its place. */
  readonly vehicle: Int32Array;
  /** With finite waiting places: whether a finished job leaves the machine before this one takes the last place (bufferFloor). */
  readonly makesWay?: Uint8Array;
}
