package tallyback.phrase;

import java.util.List;
import java.util.stream.Collectors;

/**
 * One way to read a phrase.
 *
 * @param pieces tags and kept words, in the order in which they were said
 */
record Parse(List<Piece> pieces) {

  Parse {
    pieces = List.copyOf(pieces);
  }

  @Override
  public String toString() {
    return pieces.stream().map(Piece::toString).collect(Collectors.joining(" "));
  }
}
