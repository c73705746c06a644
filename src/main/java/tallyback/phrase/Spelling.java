package tallyback.phrase;

import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * One spelling for each word that is heard alike, so that the grammar never holds two words which
 * the ear can't tell apart.
 *
 * <p>Thread rule: stateless.
 */
final class Spelling {

  private static final Map<String, String> ONE_SPELLING =
      Map.ofEntries(
          Map.entry("liter", "litre"),
          Map.entry("liters", "litres"),
          Map.entry("milliliter", "millilitre"),
          Map.entry("milliliters", "millilitres"),
          Map.entry("millimeter", "millimetre"),
          Map.entry("millimeters", "millimetres"),
          Map.entry("centimeter", "centimetre"),
          Map.entry("centimeters", "centimetres"),
          Map.entry("kilometer", "kilometre"),
          Map.entry("kilometers", "kilometres"),
          Map.entry("mls", "mils"),
          Map.entry("disk", "disc"),
          Map.entry("disks", "discs"),
          Map.entry("tire", "tyre"),
          Map.entry("tires", "tyres"),
          Map.entry("caliper", "calliper"),
          Map.entry("calipers", "callipers"),
          Map.entry("spilt", "spilled"),
          Map.entry("ok", "okay"),
          Map.entry("yep", "yeah"),
          Map.entry("fourty", "forty"),
          Map.entry("sixteenth", "sixteenths"),
          Map.entry("eighth", "eighths"),
          Map.entry("cannot", "can't"));

  private Spelling() {}

  /** The word as the grammar spells it. */
  static String of(String word) {
    return ONE_SPELLING.getOrDefault(word, word);
  }

  /** A spoken name as the grammar spells it: lower case, single blanks. */
  static String ofName(String name) {
    return Arrays.stream(name.strip().toLowerCase(Locale.ROOT).replace('-', ' ').split("\\s+", -1))
        .map(Spelling::of)
        .collect(Collectors.joining(" "));
  }
}
