import type { FirmwareFamilyId } from './firmware-family.ts'

/** What a stop is for: another reel on the same tool, or anything that a person does by hand. */
export type PausePurpose = 'change' | 'pause'

/** How a family is told to wait for a person in the middle of a file. */
export interface PauseCommand {
  readonly code: string
  /** What the machine does at it, and how it goes on; sentences for the person at the printer. */
  readonly does: string
  /** What it needs to be set up for; without that the machine prints on, or stops with an error. */
  readonly needs: string
}

const partOfCommunity: Readonly<Record<PausePurpose, PauseCommand>> = {
  change: {
    code: 'M600',
    does: 'The printer parks, unloads the filament, waits, loads and purges the new one, and goes on from its own display.',
    needs:
      'Firmware built without filament change does not know it and prints on: try it once on a small print.',
  },
  pause: {
    code: 'M0',
    does: 'The printer waits where it stands, over the print, until somebody presses its knob or the host sends M108.',
    needs:
      'The nozzle is not parked: move it off the print by the display if the wait may be long.',
  },
}

const hostPause: PauseCommand = {
  code: 'PAUSE',
  does: 'The printer keeps its place and E, parks as its own pause macro says, and goes on at RESUME.',
  needs:
    'It needs the pause_resume section in the printer’s configuration; without it the print stops with an error.',
}

const suspend: PauseCommand = {
  code: 'M600',
  does: 'The printer finishes what is queued, keeps its place and E, and goes on at M601 (resume).',
  needs:
    'Unless set up otherwise it turns the heaters off meanwhile: a bed that cools may let the print go.',
}

/**
 * By family. What resumes restores E mode and logical E in all of them, so nothing more is written
 * into the file than the command.
 *
 * @see docs/method/planned-changes.md, "The command" for sources
 */
const commands: Readonly<Record<FirmwareFamilyId, Readonly<Record<PausePurpose, PauseCommand>>>> = {
  community: partOfCommunity,
  'community-1': partOfCommunity,
  meta: {
    change: {
      code: 'M600',
      does: 'The printer runs its filament-change macro, or its pause macro where there is none, waits, and goes on at M24 (resume).',
      needs: 'What it does to the filament is in that macro: read it before relying on it.',
    },
    pause: {
      code: 'M226',
      does: 'The printer runs its pause macro, waits, and goes on at M24 (resume).',
      needs: 'Where it parks is in that macro.',
    },
  },
  host: { change: hostPause, pause: hostPause },
  textfile: { change: suspend, pause: suspend },
}

/** The command by which a family waits for a person and can be resumed. */
export const pauseCommand = (family: FirmwareFamilyId, purpose: PausePurpose): PauseCommand =>
  commands[family][purpose]
