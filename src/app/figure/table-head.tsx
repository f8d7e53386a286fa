import type { ReactNode } from 'react'

/** The headings of a table's columns. */
export const TableHead = ({
  headings,
  spoken = false,
}: {
  readonly headings: readonly string[]
  /** The eye needs none. */
  readonly spoken?: boolean
}): ReactNode => (
  <thead className={spoken ? 'spoken' : undefined}>
    <tr>
      {headings.map((heading) => (
        <th key={heading} scope="col">
          {heading}
        </th>
      ))}
    </tr>
  </thead>
)
