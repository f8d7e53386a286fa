import { keep, kept } from './kept.ts'

/** The ground the sheet is drawn on, as chosen: as the device has it unless told. */
export type Ground = 'device' | 'day' | 'night'

/** The choice kept by this browser. */
export function keptGround(): Ground {
  const name = kept('ground')
  return name === 'day' || name === 'night' ? name : 'device'
}

/** Keeps a choice and puts the page on its ground. */
export function chooseGround(ground: Ground): void {
  keep('ground', ground)
  putOn(ground)
}

const dark = (): MediaQueryList => matchMedia('(prefers-color-scheme: dark)')
let chosen: Ground = 'device'

const putOn = (ground: Ground): void => {
  chosen = ground
  const night = ground === 'night' || (ground === 'device' && dark().matches)
  document.documentElement.dataset['ground'] = night ? 'night' : 'day'
}

/** Puts the page on its ground and follows the device from then on. */
export function beginGround(): void {
  putOn(keptGround())
  dark().addEventListener('change', () => putOn(chosen))
}
