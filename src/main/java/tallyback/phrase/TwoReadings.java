package tallyback.phrase;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Finds phrases that can be read in two ways, and decides whether there are any, without listing
 * phrases: by squaring the transducer (M.-P. Béal, O. Carton, C. Prieur, J. Sakarovitch,
 * <cite>Squaring transducers: an efficient procedure for deciding functionality and
 * sequentiality</cite>, Theoretical Computer Science 292, 2003).
 *
 * <p>Two readers go through the transducer side by side on the same words. What one has given more
 * than the other is its lead. Every phrase has one reading exactly if each pair of states, from
 * which both can still end together, is only ever met with one lead, and both have given the same
 * when they end. So each pair is visited once, and a second lead, outputs that have gone apart, or
 * a difference at the end each yields a phrase with two readings.
 *
 * <p>Thread rule: one use each, by one thread.
 */
final class TwoReadings {

  /**
   * A phrase and two different ways to read it.
   *
   * @param phrase its words
   * @param first one way
   * @param second another
   */
  record Witness(List<String> phrase, Parse first, Parse second) {}

  /**
   * Both readers' states; the first is never the larger one, because who is first makes no
   * difference.
   */
  private record Pair(int first, int second) {
    /**
     * Spread wide: the usual hash of two small numbers would put some thirty pairs under one value.
     */
    @Override
    public int hashCode() {
      return first * 0x9E3779B9 + second;
    }
  }

  /** What the readers have given since they last agreed: one of the two is always empty. */
  private record Lead(List<Integer> first, List<Integer> second) {
    private static final Lead NONE = new Lead(List.of(), List.of());

    private Lead swapped() {
      return new Lead(second, first);
    }
  }

  private record Step(Pair from, int word) {}

  private record Met(Lead lead, @Nullable Step cameBy) {}

  /**
   * Once a phrase with two readings is known, so many more places are looked into for other kinds.
   */
  private static final int MOST_CONFLICTS = 1000;

  private final Transducer transducer;
  private final int mostWitnesses;
  private final Map<Pair, Met> met = new HashMap<>();
  private final ArrayDeque<Pair> open = new ArrayDeque<>();
  private final Map<Pair, Boolean> canEndTogether = new HashMap<>();
  private final Map<Set<List<Piece>>, Witness> witnesses = new LinkedHashMap<>();
  private int conflicts;

  private TwoReadings(Transducer transducer, int mostWitnesses) {
    this.transducer = transducer;
    this.mostWitnesses = mostWitnesses;
  }

  /**
   * Looks for phrases with two readings.
   *
   * @param transducer the grammar
   * @param mostWitnesses after how many to stop
   * @return phrases that differ in what they confuse; empty exactly if every phrase has one reading
   */
  static List<Witness> in(Transducer transducer, int mostWitnesses) {
    TwoReadings search = new TwoReadings(transducer, mostWitnesses);
    search.run();
    return List.copyOf(search.witnesses.values());
  }

  private void run() {
    Pair start = new Pair(transducer.start(), transducer.start());
    met.put(start, new Met(Lead.NONE, null));
    open.add(start);
    while (!open.isEmpty() && witnesses.size() < mostWitnesses && conflicts < MOST_CONFLICTS) {
      Pair pair = open.remove();
      Lead lead = metAt(pair).lead();
      compareEnds(pair, lead);
      forEachStep(pair, (word, first, second) -> meet(new Step(pair, word), lead, first, second));
    }
  }

  private Met metAt(Pair pair) {
    Met found = met.get(pair);
    if (found == null) {
      throw new IllegalStateException("pair " + pair + " was never met");
    }
    return found;
  }

  private interface StepTaker {
    void take(int word, Transducer.Arc first, Transducer.Arc second);
  }

  /** All ways in which both readers take the same next word. */
  private void forEachStep(Pair pair, StepTaker taker) {
    Transducer.Arc[] firstArcs = transducer.arcs(pair.first());
    Transducer.Arc[] secondArcs = transducer.arcs(pair.second());
    boolean together = pair.first() == pair.second();
    int begin = 0;
    for (int i = 0; i < firstArcs.length; i++) {
      int word = firstArcs[i].word();
      while (begin < secondArcs.length && secondArcs[begin].word() < word) {
        begin++;
      }
      for (int j = together ? i : begin;
          j < secondArcs.length && secondArcs[j].word() == word;
          j++) {
        taker.take(word, firstArcs[i], secondArcs[j]);
      }
    }
  }

  private void meet(Step step, Lead lead, Transducer.Arc first, Transducer.Arc second) {
    boolean inOrder = first.target() <= second.target();
    Pair pair =
        inOrder
            ? new Pair(first.target(), second.target())
            : new Pair(second.target(), first.target());
    @Nullable Lead after =
        first.output() == second.output() && lead.equals(Lead.NONE)
            ? Lead.NONE
            : advanced(lead, transducer.output(first.output()), transducer.output(second.output()));
    Lead ordered = after == null || inOrder ? after : after.swapped();
    Met earlier = met.get(pair);
    if (ordered != null && earlier == null) {
      met.put(pair, new Met(ordered, step));
      open.add(pair);
    } else if (!same(pair, ordered, earlier) && canEndTogether(pair)) {
      conflicts++;
      List<Integer> ending = shortestEnding(pair);
      keepIfTwofold(wordsTo(step), ending);
      if (earlier != null && earlier.cameBy() != null) {
        keepIfTwofold(wordsTo(earlier.cameBy()), ending);
      }
    }
  }

  /**
   * Whether a pair is met again with the lead it had; who leads is no difference when both stand in
   * one state.
   */
  private static boolean same(Pair pair, @Nullable Lead lead, @Nullable Met earlier) {
    if (lead == null || earlier == null) {
      return false;
    }
    return lead.equals(earlier.lead())
        || (pair.first() == pair.second() && lead.swapped().equals(earlier.lead()));
  }

  /**
   * The lead after both have given some more, or null when what they gave can no longer become the
   * same.
   */
  private static @Nullable Lead advanced(Lead lead, List<Integer> first, List<Integer> second) {
    List<Integer> allFirst = Transducer.joined(lead.first(), first);
    List<Integer> allSecond = Transducer.joined(lead.second(), second);
    int common = Math.min(allFirst.size(), allSecond.size());
    if (!allFirst.subList(0, common).equals(allSecond.subList(0, common))) {
      return null;
    }
    if (allFirst.size() == allSecond.size()) {
      return Lead.NONE;
    }
    return new Lead(
        List.copyOf(allFirst.subList(common, allFirst.size())),
        List.copyOf(allSecond.subList(common, allSecond.size())));
  }

  private void compareEnds(Pair pair, Lead lead) {
    for (int first : transducer.endOutputs(pair.first())) {
      for (int second : transducer.endOutputs(pair.second())) {
        if (!Lead.NONE.equals(
            advanced(lead, transducer.output(first), transducer.output(second)))) {
          Step cameBy = metAt(pair).cameBy();
          keepIfTwofold(cameBy == null ? List.of() : wordsTo(cameBy), List.of());
          return;
        }
      }
    }
  }

  private boolean bothEnd(Pair pair) {
    return transducer.isFinal(pair.first()) && transducer.isFinal(pair.second());
  }

  /**
   * Whether both readers can end after the same words; remembers the answer for all pairs it looked
   * at in vain.
   */
  private boolean canEndTogether(Pair pair) {
    Boolean known = canEndTogether.get(pair);
    if (known != null) {
      return known;
    }
    Map<Pair, Step> seen = new HashMap<>();
    @Nullable Pair end = searchEnd(pair, seen);
    if (end == null) {
      seen.keySet().forEach(useless -> canEndTogether.put(useless, false));
      canEndTogether.put(pair, false);
      return false;
    }
    for (Pair at = end; at != null; at = seen.containsKey(at) ? seen.get(at).from() : null) {
      canEndTogether.put(at, true);
    }
    return true;
  }

  private List<Integer> shortestEnding(Pair pair) {
    Map<Pair, Step> seen = new HashMap<>();
    List<Integer> words = new ArrayList<>();
    Step step = stepTo(searchEnd(pair, seen), seen);
    while (step != null) {
      words.add(step.word());
      step = stepTo(step.from(), seen);
    }
    Collections.reverse(words);
    return words;
  }

  private static @Nullable Step stepTo(@Nullable Pair pair, Map<Pair, Step> seen) {
    return pair == null ? null : seen.get(pair);
  }

  /**
   * The nearest pair where both may end, with the step to each pair on the way; the pair searched
   * from has none.
   */
  private @Nullable Pair searchEnd(Pair from, Map<Pair, Step> seen) {
    ArrayDeque<Pair> next = new ArrayDeque<>(List.of(from));
    while (!next.isEmpty()) {
      Pair pair = next.remove();
      if (bothEnd(pair)) {
        return pair;
      }
      forEachStep(
          pair,
          (word, first, second) -> {
            Pair to =
                new Pair(
                    Math.min(first.target(), second.target()),
                    Math.max(first.target(), second.target()));
            boolean useless = Boolean.FALSE.equals(canEndTogether.get(to));
            if (!useless
                && !to.equals(from)
                && seen.putIfAbsent(to, new Step(pair, word)) == null) {
              next.add(to);
            }
          });
    }
    return null;
  }

  private List<Integer> wordsTo(Step last) {
    List<Integer> words = new ArrayList<>();
    for (Step step = last; step != null; step = metAt(step.from()).cameBy()) {
      words.add(step.word());
    }
    Collections.reverse(words);
    return words;
  }

  private void keepIfTwofold(List<Integer> beginning, List<Integer> ending) {
    List<String> phrase =
        Transducer.joined(beginning, ending).stream().map(transducer.words()::get).toList();
    List<Parse> parses = transducer.parse(phrase);
    if (parses.size() > 1) {
      Witness witness = new Witness(phrase, parses.get(0), parses.get(1));
      witnesses.putIfAbsent(confusion(witness), witness);
    }
  }

  /**
   * What is confused with what: where the two readings differ, from the first to the last
   * difference, without kept words.
   */
  private static Set<List<Piece>> confusion(Witness witness) {
    List<Piece> first = witness.first().pieces();
    List<Piece> second = witness.second().pieces();
    int shorter = Math.min(first.size(), second.size());
    int front = 0;
    while (front < shorter && first.get(front).equals(second.get(front))) {
      front++;
    }
    int back = 0;
    while (back < shorter - front
        && first.get(first.size() - 1 - back).equals(second.get(second.size() - 1 - back))) {
      back++;
    }
    Set<List<Piece>> sides = new HashSet<>();
    sides.add(tags(first.subList(front, first.size() - back)));
    sides.add(tags(second.subList(front, second.size() - back)));
    return sides;
  }

  private static List<Piece> tags(List<Piece> pieces) {
    return pieces.stream().filter(Piece.Tag.class::isInstance).toList();
  }
}
