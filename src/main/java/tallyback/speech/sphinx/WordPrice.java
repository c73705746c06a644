package tallyback.speech.sphinx;

/** What each further word costs in the clip at hand. */
@FunctionalInterface
interface WordPrice {

  /** The price now, in the library's log base. */
  float now();
}
