import type { ToolJudged } from '../service/index.ts'
import type { ReelOnShelf } from './reel-on-shelf.ts'

/** Everything found out about one tool, with what was told here of its reel. */
export interface ToolFound extends ToolJudged {
  readonly onShelf?: ReelOnShelf
}
