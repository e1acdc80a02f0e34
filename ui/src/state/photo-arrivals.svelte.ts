/** Counts the photos that came from another device: who shows one that was not here looks again. */
class PhotoArrivals {
  count = $state(0);
}

export const photoArrivals = new PhotoArrivals();
