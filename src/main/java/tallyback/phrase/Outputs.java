package tallyback.phrase;

import java.util.ArrayList;
import java.util.List;

/**
 * Numbers for strings of pieces. Each string is kept as the string before its last piece, so that
 * making one longer costs the same for long and short ones.
 *
 * <p>Thread rule: filled by one thread, then only read.
 */
final class Outputs {

  /** The number of the string without pieces. */
  static final int NOTHING = 0;

  private final Symbols<Long> longer = new Symbols<>();
  private final List<List<Integer>> pieces = new ArrayList<>(List.of(List.of()));

  /** The number of an output with one more piece. */
  int extended(int output, int piece) {
    int number = longer.numberOf(((long) output << Integer.SIZE) | piece) + 1;
    if (number == pieces.size()) {
      List<Integer> all = new ArrayList<>(pieces.get(output));
      all.add(piece);
      pieces.add(List.copyOf(all));
    }
    return number;
  }

  /** The numbers of the pieces of an output. */
  List<Integer> pieces(int output) {
    return pieces.get(output);
  }
}
