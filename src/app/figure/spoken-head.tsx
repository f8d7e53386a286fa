import type { ReactNode } from 'react'

/** Headings of a table whose columns need none for the eye. */
export const SpokenHead = ({ headings }: { readonly headings: readonly string[] }): ReactNode => (
  <thead className="spoken">
    <tr>
      {headings.map((heading) => (
        <th key={heading} scope="col">
          {heading}
        </th>
      ))}
    </tr>
  </thead>
)
