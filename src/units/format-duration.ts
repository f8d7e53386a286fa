const minute = 60
const hour = 3600

/** Steps that a duration is rounded to, s. */
const steps = [1, 5, 15, 60, 300, 900, 1800, 3600] as const

/** The step that suits a doubt: the largest that is not above half of it. */
export const durationStep = (doubt_s: number): number =>
  steps.findLast((step) => step <= doubt_s / 2) ?? steps[0]

/**
 * A length of time as people say it: `25 s`, `4 min 30 s`, `50 min`, `3 h 40 min`, `2 d 4 h`.
 *
 * @param doubt_s - its uncertainty, s: what lies below is not said; 0 says it to the second
 */
export const formatDuration = (seconds: number, doubt_s = 0): string => {
  const step = Math.max(durationStep(doubt_s), seconds >= hour ? minute : 1)
  const whole = Math.round(seconds / step) * step
  if (whole < minute) return `${whole} s`
  if (whole < hour) {
    const rest = whole % minute
    return rest === 0 ? `${whole / minute} min` : `${Math.floor(whole / minute)} min ${rest} s`
  }
  const days = Math.floor(whole / (24 * hour))
  const hours = Math.floor((whole % (24 * hour)) / hour)
  const minutes = Math.round((whole % hour) / minute)
  return [
    ...(days > 0 ? [`${days} d`] : []),
    ...(hours > 0 ? [`${hours} h`] : []),
    ...(minutes > 0 ? [`${minutes} min`] : []),
  ].join(' ')
}
