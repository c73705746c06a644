package tallyback.bench;

import static tallyback.bench.Phrases.anyOf;
import static tallyback.bench.Phrases.either;
import static tallyback.bench.Phrases.maybe;
import static tallyback.bench.Phrases.row;
import static tallyback.bench.Phrases.say;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * Entries of about the size of a real plan's, for measuring the recogniser on its own: an invented
 * orchard tractor.
 */
final class ProvisionalEntries {

  private static final String[] ONES = {
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"
  };
  private static final String[] TEENS = {
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen"
  };
  private static final String[] TENS = {
    "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"
  };

  static final List<String> PLACES =
      List.of(
          "block plug",
          "radiator drain",
          "upper hose",
          "lower hose",
          "bypass hose",
          "heater hose",
          "splash guard",
          "belt guard",
          "fan shroud",
          "coolant pump",
          "thermostat housing",
          "outlet elbow",
          "idler pulley",
          "tensioner bracket",
          "alternator bracket",
          "expansion tank",
          "filler neck",
          "oil cooler",
          "side cover",
          "front cover",
          "hood latch",
          "battery tray",
          "tool box",
          "left step",
          "right step",
          "air duct",
          "intake pipe",
          "fuel filter",
          "water separator",
          "drain valve",
          "hub nut",
          "axle bolt",
          "gear cover",
          "pump flange",
          "cylinder head",
          "valve cover",
          "oil pan",
          "dipstick tube",
          "crank pulley",
          "fan hub");

  private ProvisionalEntries() {}

  private static Phrases below100() {
    return either(anyOf(ONES), anyOf(TEENS), anyOf(TENS), row(anyOf(TENS), anyOf(ONES)));
  }

  private static Phrases counts() {
    return either(below100(), say("a dozen"), say("a couple of"));
  }

  private static Phrases decimals() {
    Phrases digit = either(anyOf(ONES), anyOf("oh", "zero"));
    return row(either(below100(), say("zero")), say("point"), digit, maybe(digit));
  }

  private static Phrases wholes() {
    return either(
        below100(),
        row(anyOf(ONES), say("hundred"), maybe(row(maybe(say("and")), below100()))),
        row(
            anyOf("eleven", "twelve", "thirteen", "fourteen", "fifteen", "twenty one"),
            say("hundred")),
        row(anyOf(ONES), say("thousand")),
        row(
            anyOf(ONES),
            either(anyOf(TENS), row(anyOf(TENS), anyOf(ONES)), row(say("oh"), anyOf(ONES)))));
  }

  private static Phrases halves() {
    return either(
        row(anyOf(ONES), say("and a half")),
        say("half a"),
        say("one and a quarter"),
        say("three quarters of a"));
  }

  private static Phrases volumes() {
    return either(
        row(
            either(decimals(), halves(), below100()),
            anyOf("litre", "litres", "quart", "quarts", "gallons", "pints")),
        row(wholes(), anyOf("millilitres", "mils")));
  }

  private static Phrases torques() {
    return either(
        row(
            either(below100(), decimals(), wholes()),
            anyOf("newton metres", "foot pounds", "inch pounds")),
        row(anyOf(TENS), say("degrees")));
  }

  private static Phrases heads() {
    return row(
        anyOf(
            "seven",
            "eight",
            "ten",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
            "twenty one",
            "twenty two",
            "twenty four"),
        anyOf("millimetre", "mil"));
  }

  private static Phrases places() {
    return row(say("the"), anyOf(PLACES.toArray(String[]::new)));
  }

  static Phrases entries() {
    return entries(places());
  }

  /** The same entries over many invented two-word names. */
  static Phrases entriesOver150Names() {
    String[] first = {
      "left", "right", "upper", "lower", "front", "rear", "inner", "outer", "main", "spare", "long",
      "short", "round", "flat", "blue"
    };
    String[] second = {
      "bracket", "hose", "cover", "bolt", "clamp", "valve", "plate", "spring", "lever", "bearing"
    };
    List<String> names = new ArrayList<>();
    for (String a : first) {
      for (String b : second) {
        names.add(a + " " + b);
      }
    }
    return entries(row(say("the"), anyOf(names.toArray(String[]::new))));
  }

  private static Phrases entries(Phrases places) {
    Phrases fasteners =
        anyOf("bolt", "bolts", "nut", "nuts", "screws", "clips", "clamps", "washers");
    return either(
        row(
            anyOf("drained", "caught", "filled", "added", "lost", "spilled"),
            volumes(),
            maybe(row(anyOf("from", "into", "out of"), places))),
        row(counts(), fasteners, maybe(heads()), anyOf("out of", "off", "back in", "from"), places),
        row(say("new"), counts(), fasteners, anyOf("in", "on"), places),
        row(anyOf("lost", "dropped", "found"), counts(), fasteners),
        row(anyOf("torqued", "tightened"), places, say("to"), torques()),
        row(
            places,
            anyOf(
                "is off",
                "is on",
                "removed",
                "fitted",
                "hand tight",
                "torqued",
                "is loose",
                "leaks")),
        row(say("step"), below100(), anyOf("done", "started", "skipped")),
        row(anyOf("temperature", "reading"), wholes(), say("degrees")),
        row(say("gap"), decimals(), say("millimetres")),
        row(say("pressure"), decimals(), say("bar")),
        row(
            anyOf("engine", "battery"),
            anyOf("running", "stopped", "cold", "disconnected", "connected")),
        anyOf(
            "locking pin in",
            "locking pin out",
            "no leak",
            "level at full",
            "level at low",
            "guards on",
            "scratch that",
            "what is still off",
            "pause the job",
            "resume the job",
            "same again on the left",
            "same again on the right"));
  }

  /** What may be answered when the tool asks back. */
  static Phrases answers() {
    return either(
        anyOf(
            "yes",
            "no",
            "stop",
            "say again",
            "the first",
            "the second",
            "first one",
            "second one",
            "leave it",
            "that is right",
            "that is wrong"),
        wholes(),
        decimals(),
        volumes(),
        torques());
  }

  /** One and many are the same, and so are "oh" and "zero", "in" and "on". */
  static Object meaning(List<String> words) {
    return words.stream().map(word -> SAME.getOrDefault(word, word)).toList();
  }

  private static final Map<String, String> SAME =
      Map.ofEntries(
          Map.entry("bolts", "bolt"),
          Map.entry("nuts", "nut"),
          Map.entry("litres", "litre"),
          Map.entry("quarts", "quart"),
          Map.entry("zero", "oh"),
          Map.entry("on", "in"));
}
