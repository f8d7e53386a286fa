/**
 * Where a figure comes from. `standing` says how far it can be trusted:
 * `read` in the source named; `read second-hand` in something that reproduces the source named;
 * `from memory`, not confirmed; `common practice, no source`.
 */
export interface Source {
  readonly standing: 'read' | 'read second-hand' | 'from memory' | 'common practice, no source'
  /** What was read, or why the figure was chosen. */
  readonly where: string
}
