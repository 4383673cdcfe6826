/** The ids of a plan, by what they name. */
export interface Ids {
  readonly places: ReadonlySet<string>;
  readonly crew: ReadonlySet<string>;
  readonly suits: ReadonlySet<string>;
  readonly evas: ReadonlySet<string>;
  readonly equipment: ReadonlySet<string>;
  readonly containers: ReadonlySet<string>;
  readonly tasks: ReadonlySet<string>;
}
