package tallyback.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tallyback.model.Weight;
import tallyback.phrase.Lexicon;
import tallyback.phrase.PhoneDistance;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;
import tallyback.plan.Plan.Point;

/**
 * Names that may stand in the same place of an entry and sound alike when spoken. Of two names only
 * the words in which they differ count ("front" and "fan" of "front cover" and "fan cover"), by the
 * distance of their phones: nearer than {@link #CHECK} is most likely to be mistaken (bolt, belt),
 * nearer than {@link #NOTE} in noise (filter, filler). The limits are set by hand on pairs of the
 * trade.
 */
final class SoundsAlike {

  /** From here on two names are told apart well; "inlet" and "outlet" stand at 0.3. */
  private static final double NOTE = 0.25;

  private static final double CHECK = 0.2;

  /** Nor are they mistaken when so much differs, however long they are. */
  private static final double MOST_EDITS = 2;

  /** So many of a file are told; more are better looked at after the first are mended. */
  private static final int MOST_TOLD = 40;

  /** Of the ways to say some words, so many are looked at. */
  private static final int MOST_WAYS = 8;

  /** A spoken name. */
  record Name(Named named, int index, String said, List<String> words) {}

  private final Plan plan;
  private final Lexicon lexicon;
  private final LintList list;
  private final Map<String, List<int[]>> phones = new HashMap<>();
  private int told;

  private SoundsAlike(Plan plan, Lexicon lexicon, LintList list) {
    this.plan = plan;
    this.lexicon = lexicon;
    this.list = list;
  }

  static void look(Plan plan, Lexicon lexicon, LintList list) {
    SoundsAlike look = new SoundsAlike(plan, lexicon, list);
    look.slots().values().forEach(look::lookAmong);
  }

  /** Which names may stand in the same place of an entry. */
  private Map<String, List<Name>> slots() {
    Map<String, List<Name>> slots = new LinkedHashMap<>();
    for (Named named : plan.named()) {
      String slot = slot(named);
      for (int i = 0; i < named.say().size(); i++) {
        List<String> words = Unsayable.words(named.say().get(i));
        slots
            .computeIfAbsent(slot, unused -> new ArrayList<>())
            .add(new Name(named, i, named.say().get(i), words));
      }
    }
    return slots;
  }

  private static String slot(Named named) {
    if (named instanceof Item
        || named instanceof Plan.Place
        || named instanceof Point
        || named instanceof FluidSystem) {
      return "what or where";
    }
    return named instanceof Plan.Instrument instrument
        ? instrument.kind().name()
        : named.getClass().getSimpleName();
  }

  private void lookAmong(List<Name> names) {
    for (int later = 1; later < names.size(); later++) {
      for (int earlier = 0; earlier < later; earlier++) {
        compare(names.get(earlier), names.get(later));
      }
    }
  }

  private void compare(Name earlier, Name later) {
    if (earlier.named().id().equals(later.named().id())
        || earlier.words().equals(later.words())
        || belongTogether(earlier.named(), later.named())
        || told >= MOST_TOLD) {
      return;
    }
    double distance = distance(earlier.words(), later.words());
    if (distance < NOTE) {
      told++;
      Weight weight = distance == 0 ? Weight.STOP : distance < CHECK ? Weight.CHECK : Weight.NOTE;
      LintText.soundsAlike(earlier, later, weight, list);
    }
  }

  /** A drain point and the plug that closes it may sound like one thing: they are. */
  private static boolean belongTogether(Named one, Named other) {
    return (one instanceof Point point && other.id().equals(point.plug()))
        || (other instanceof Point last && one.id().equals(last.plug()));
  }

  /** How far apart the words are in which two names differ; 1 when one has only more words. */
  private double distance(List<String> one, List<String> other) {
    int front = 0;
    int shorter = Math.min(one.size(), other.size());
    while (front < shorter && one.get(front).equals(other.get(front))) {
      front++;
    }
    int back = 0;
    while (back < shorter - front
        && one.get(one.size() - 1 - back).equals(other.get(other.size() - 1 - back))) {
      back++;
    }
    if (front + back == shorter) {
      return 1;
    }
    return distance(rest(one, front, back), rest(other, front, back));
  }

  private static String rest(List<String> words, int front, int back) {
    return String.join(" ", words.subList(front, words.size() - back));
  }

  private double distance(String one, String other) {
    double least = 1;
    for (int[] left : phones(one)) {
      for (int[] right : phones(other)) {
        int longer = Math.max(left.length, right.length);
        double most = Math.min(NOTE * longer, MOST_EDITS);
        if (Math.abs(left.length - right.length) < most) {
          double edits = PhoneDistance.fineEdits(left, right, most);
          least = edits < most ? Math.min(least, edits / longer) : least;
        }
      }
    }
    return least;
  }

  /** Each way of saying some words, at most a handful; none when a word is not known. */
  private List<int[]> phones(String words) {
    List<int[]> known = phones.get(words);
    if (known == null) {
      known =
          Arrays.stream(words.split(" ", -1))
              .map(lexicon::pronunciations)
              .reduce(SoundsAlike::joined)
              .orElseThrow()
              .stream()
              .map(PhoneDistance::numbered)
              .toList();
      phones.put(words, known);
    }
    return known;
  }

  private static List<String> joined(List<String> begin, List<String> end) {
    return begin.stream()
        .flatMap(left -> end.stream().map(right -> left + " " + right))
        .limit(MOST_WAYS)
        .toList();
  }
}
