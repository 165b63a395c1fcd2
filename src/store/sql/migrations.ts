/** One step of the database's form. Steps are only ever added; what PostgreSQL 15 and 18 both accept. */
export interface Migration {
  readonly number: number;
  readonly name: string;
  readonly sql: string;
}

export const MIGRATIONS: readonly Migration[] = [
  {
    number: 1,
    name: 'journal and readings',
    sql: `
      create table watermeadow.greenhouse (
        id integer generated always as identity primary key,
        name text not null unique
      );

      -- Which program has a greenhouse open; the advisory lock decides, this row only names the program.
      create table watermeadow.holder (
        greenhouse integer primary key references watermeadow.greenhouse,
        pid integer not null,
        program text not null,
        host text not null,
        address text
      );

      -- Texts that the hash covers are kept letter by letter, the body (json, not jsonb) too.
      create table watermeadow.event (
        greenhouse integer not null references watermeadow.greenhouse,
        sequence bigint not null check (sequence > 0),
        id uuid not null,
        kind text not null,
        happened_at text not null,
        recorded_at text not null,
        recorded_by text not null,
        identity text,
        corrects uuid,
        body json not null,
        previous_hash text not null,
        hash text not null,
        primary key (greenhouse, sequence),
        unique (greenhouse, id),
        unique (greenhouse, identity)
      );

      create table watermeadow.series (
        greenhouse integer not null references watermeadow.greenhouse,
        id integer generated always as identity,
        place text not null,
        quantity text not null,
        instrument text not null,
        primary key (greenhouse, id),
        unique (greenhouse, place, quantity, instrument)
      );

      create table watermeadow.reading (
        greenhouse integer not null,
        series integer not null,
        at timestamptz not null,
        value double precision not null,
        sd double precision,
        primary key (greenhouse, series, at)
      );

      create function watermeadow.refuse_change() returns trigger language plpgsql as $$
      begin
        raise exception '% on % is refused: what happened is only ever added to', tg_op, tg_table_name using errcode = 'restrict_violation';
      end $$;

      create trigger append_only before update or delete or truncate on watermeadow.event
        for each statement execute function watermeadow.refuse_change();
      create trigger append_only before update or delete or truncate on watermeadow.reading
        for each statement execute function watermeadow.refuse_change();
      create trigger append_only before update or delete or truncate on watermeadow.series
        for each statement execute function watermeadow.refuse_change();

      -- What a foreign key from reading to series would say, asked once a statement instead of once a row.
      create function watermeadow.refuse_unknown_series() returns trigger language plpgsql as $$
      begin
        if exists (select 1 from added left join watermeadow.series s on s.greenhouse = added.greenhouse and s.id = added.series where s.id is null) then
          raise exception 'a reading names a series that is not there' using errcode = 'foreign_key_violation';
        end if;
        return null;
      end $$;

      create trigger series_is_there after insert on watermeadow.reading referencing new table as added
        for each statement execute function watermeadow.refuse_unknown_series();
    `,
  },
  {
    number: 2,
    name: 'queue of scans',
    sql: `
      -- Work to do, not what happened: rows change as work goes on. One cloud, known by its bytes, is one row.
      create table watermeadow.scan_job (
        greenhouse integer not null references watermeadow.greenhouse,
        sha256 text not null,
        name text not null,
        bytes bigint not null,
        modified_ms double precision not null,
        basin text,
        taken_at text,
        arrived_at text not null,
        state text not null check (state in ('queued', 'running', 'done', 'refused')),
        attempt integer not null default 0,
        owner text,
        heartbeat_at timestamptz,
        share real not null default 0,
        step text,
        ended_at text,
        refusals json,
        primary key (greenhouse, sha256)
      );
      create index scan_job_by_name on watermeadow.scan_job (greenhouse, name);
    `,
  },
];
