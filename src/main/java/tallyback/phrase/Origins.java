package tallyback.phrase;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Finds out where in the sources a reading comes from: walks the network along the words and the
 * pieces of the reading until a way fits.
 *
 * <p>Thread rule: one use each, by one thread.
 */
final class Origins {

  /** How far a walk has come: its state, and how many words and pieces are behind it. */
  private record Spot(int state, int words, int pieces) {}

  /**
   * A walk: where it is, the place of each piece so far, and the place of the last word or piece.
   */
  private record Walk(Spot spot, List<PhraseNetwork.Place> places, PhraseNetwork.Place last) {}

  private final PhraseNetwork network;
  private final List<String> phrase;
  private final List<Piece> pieces;
  private final Set<Spot> seen = new HashSet<>();

  private Origins(PhraseNetwork network, List<String> phrase, Parse parse) {
    this.network = network;
    this.phrase = phrase;
    this.pieces = parse.pieces();
  }

  /**
   * Where a reading comes from.
   *
   * @param network the grammar
   * @param phrase the words of a phrase
   * @param parse one way to read it
   * @return the place of each piece, and behind them the place of the last word or piece
   */
  static List<PhraseNetwork.Place> of(PhraseNetwork network, List<String> phrase, Parse parse) {
    return new Origins(network, phrase, parse).walk();
  }

  private List<PhraseNetwork.Place> walk() {
    List<Walk> open = new ArrayList<>();
    open.add(new Walk(new Spot(network.start(), 0, 0), List.of(), network.place(0)));
    while (!open.isEmpty()) {
      Walk walk = open.remove(open.size() - 1);
      if (walk.spot().equals(new Spot(network.end(), phrase.size(), pieces.size()))) {
        return with(walk.places(), walk.last());
      }
      for (PhraseNetwork.Arc arc : network.arcs(walk.spot().state())) {
        Walk next = next(walk, arc);
        if (fits(walk.spot(), arc) && seen.add(next.spot())) {
          open.add(next);
        }
      }
    }
    throw new IllegalStateException("the reading " + pieces + " is not one of the grammar");
  }

  private boolean fits(Spot spot, PhraseNetwork.Arc arc) {
    boolean wordFits =
        !says(arc)
            || (spot.words() < phrase.size()
                && network.words().get(arc.word()).equals(phrase.get(spot.words())));
    boolean pieceFits =
        !gives(arc)
            || (spot.pieces() < pieces.size()
                && network.pieces().get(arc.piece()).equals(pieces.get(spot.pieces())));
    return wordFits && pieceFits;
  }

  private Walk next(Walk walk, PhraseNetwork.Arc arc) {
    Spot spot = walk.spot();
    PhraseNetwork.Place place = network.place(arc.place());
    return new Walk(
        new Spot(
            arc.target(), spot.words() + (says(arc) ? 1 : 0), spot.pieces() + (gives(arc) ? 1 : 0)),
        gives(arc) ? with(walk.places(), place) : walk.places(),
        says(arc) || gives(arc) ? place : walk.last());
  }

  private static boolean says(PhraseNetwork.Arc arc) {
    return arc.word() != PhraseNetwork.NONE;
  }

  private static boolean gives(PhraseNetwork.Arc arc) {
    return arc.piece() != PhraseNetwork.NONE;
  }

  private static List<PhraseNetwork.Place> with(
      List<PhraseNetwork.Place> places, PhraseNetwork.Place place) {
    List<PhraseNetwork.Place> more = new ArrayList<>(places);
    more.add(place);
    return more;
  }
}
