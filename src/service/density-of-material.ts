import type { ShelfEstimate } from '../estimate/index.ts'

/** Whether a reel's density is what a person told of its material, one of their own. */
export const isDensityOfMaterialTold = ({ book }: ShelfEstimate, reel: string): boolean => {
  const place = book.reelAt.get(reel)
  return place !== undefined && book.catalogue.makes[book.makeOfReel[place]!]!.density !== undefined
}
