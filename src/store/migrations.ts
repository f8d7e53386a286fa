import type { Flavour } from './flavour.ts'

/** A step that changes the tables. */
export interface Migration {
  readonly name: string
  readonly statements: (flavour: Flavour) => readonly string[]
}

/** Only ever appended to: what was released stays as it is, in this order. */
export const migrations: readonly Migration[] = [
  {
    name: '0001-ledger',
    statements: ({ text, whole, packed, table, factsStay }) => [
      `create table revision (
        one ${whole} not null primary key check (one = 1),
        value ${whole} not null
      )${table}`,
      'insert into revision (one, value) values (1, 0)',
      `create table catalogue_row (
        id ${text} not null primary key,
        kind ${text} not null,
        changed_at ${text} not null,
        body ${text} not null
      )${table}`,
      `create table print (
        id ${text} not null primary key,
        changed_at ${text} not null,
        file ${text} not null,
        bytes ${whole} not null,
        body ${packed} not null
      )${table}`,
      `create table reel (id ${text} not null primary key)${table}`,
      `create table fact (
        sequence ${whole} not null primary key,
        id ${text} not null unique,
        kind ${text} not null,
        at ${text} not null,
        recorded_at ${text} not null,
        reel ${text} references reel (id),
        make ${text} references catalogue_row (id),
        printer ${text} references catalogue_row (id),
        scale ${text} references catalogue_row (id),
        person ${text} references catalogue_row (id),
        print ${text} references print (id),
        voids ${text} references fact (id) deferrable initially deferred,
        instead ${text} references fact (id) deferrable initially deferred,
        body ${text} not null
      )${table}`,
      'create index fact_of_reel on fact (reel, at)',
      'create index fact_voids on fact (voids)',
      ...factsStay,
    ],
  },
  {
    name: '0002-ledger-id',
    statements: ({ text, whole, table, randomId }) => [
      `create table ledger (
        one ${whole} not null primary key check (one = 1),
        id ${text} not null
      )${table}`,
      `insert into ledger (one, id) values (1, ${randomId})`,
    ],
  },
]
