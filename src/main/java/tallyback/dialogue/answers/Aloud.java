package tallyback.dialogue.answers;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import tallyback.model.Amount;
import tallyback.model.Finding;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;

/** Written text in words that a voice can say and nobody mishears: no signs, no tolerances. */
public final class Aloud {

  /** So much of anything is said; who wants more looks at it. */
  static final int MOST = 3;

  private static final String NUMBER = "\\d+(?:\\.\\d+)?";

  private static final String UNITS =
      Arrays.stream(Unit.values())
          .map(Unit::symbol)
          .filter(symbol -> !symbol.isEmpty())
          .sorted(Comparator.comparingInt(String::length).reversed())
          .map(Aloud::asPattern)
          .collect(Collectors.joining("|"));

  private static final Pattern TOLERANCE =
      Pattern.compile("\\s*±\\s*" + NUMBER + "\\s?(?:(?:" + UNITS + ")(?![\\p{L}·]))?");
  private static final Pattern ASIDE = Pattern.compile("\\s*\\([^)]*\\)");
  private static final Pattern TIME = Pattern.compile("\\b(\\d\\d):(\\d\\d)\\b");
  private static final Pattern AMOUNT =
      Pattern.compile("(−|-)?(" + NUMBER + ")(?:\\s?(" + UNITS + ")(?![\\p{L}·]))?");

  /** Those that no word looks like. */
  private static final Pattern UNIT_ALONE =
      Pattern.compile("(?:N·m|lbf·ft|lbf·in|kgf·m|kgf·cm)(?![\\p{L}·])");

  private Aloud() {}

  /** "2 in the tray" are no inches. */
  private static String asPattern(String symbol) {
    return Pattern.quote(symbol) + (symbol.equals("in") ? "(?!\\s+\\p{L})" : "");
  }

  /** "belly pan bolts: four on the machine, one in the tray". */
  public static String finding(Finding finding) {
    return of(finding.subject() + ": " + finding.inShort());
  }

  /** The text in words. */
  public static String of(String written) {
    String text = ASIDE.matcher(written).replaceAll("");
    text = TOLERANCE.matcher(text).replaceAll("");
    text = TIME.matcher(text).replaceAll(Aloud::time);
    text = AMOUNT.matcher(text).replaceAll(Aloud::amount);
    text = UNIT_ALONE.matcher(text).replaceAll(unit -> EntryGrammar.spoken(unitOf(unit.group())));
    text = text.replace('"', ' ').replace(';', ',').replace('·', ',');
    return text.replaceAll("\\s+", " ")
        .replaceAll("\\s+(?=[,.:])", "")
        .replaceAll(",+(?=[,.:]|$)", "")
        .strip();
  }

  private static String time(MatchResult time) {
    int hour = Integer.parseInt(time.group(1));
    int minute = Integer.parseInt(time.group(2));
    return " " + time(hour, minute) + " ";
  }

  private static String time(int hour, int minute) {
    String hours = EntryGrammar.inWords(hour);
    if (minute == 0) {
      return hours + " o'clock";
    }
    return hours + (minute < 10 ? " oh " : " ") + EntryGrammar.inWords(minute);
  }

  private static String amount(MatchResult found) {
    BigDecimal value = new BigDecimal(found.group(2));
    String sign = found.group(1) == null ? "" : "minus ";
    String unit = found.group(3);
    String said =
        unit == null ? count(value) : EntryGrammar.spoken(new Amount(value, unitOf(unit)));
    return Matcher.quoteReplacement(sign + said);
  }

  /** "thirteen, one three, panel screws". */
  private static String count(BigDecimal value) {
    String said = EntryGrammar.spoken(new Amount(value, Unit.UNSAID));
    return said.indexOf(',') < 0 ? said : said + ",";
  }

  private static Unit unitOf(String symbol) {
    return Arrays.stream(Unit.values())
        .filter(unit -> unit.symbol().equals(symbol))
        .findFirst()
        .orElse(Unit.UNSAID);
  }

  /** The first three, and how many more there are: "a, b, c, and five more". */
  static String few(List<String> all, String between) {
    List<String> said = new ArrayList<>(all.subList(0, Math.min(MOST, all.size())));
    int more = all.size() - said.size();
    if (more > 0) {
      said.add(AnswerText.more(EntryGrammar.inWords(more)));
    }
    return String.join(between, said);
  }

  /** Litres without noughts at the end: "four point nine litres". */
  static String litres(Amount amount) {
    BigDecimal shorter = amount.value().stripTrailingZeros();
    BigDecimal plain = shorter.scale() < 0 ? shorter.setScale(0) : shorter;
    return EntryGrammar.spoken(new Amount(plain.abs(), amount.unit()));
  }

  /** "two hours ten minutes". */
  static String duration(Duration time) {
    long minutes = time.toMinutes();
    List<String> parts = new ArrayList<>();
    if (minutes >= 60) {
      parts.add(EntryGrammar.spoken(new Amount(BigDecimal.valueOf(minutes / 60), Unit.HOUR)));
    }
    if (minutes % 60 > 0 || minutes == 0) {
      parts.add(EntryGrammar.spoken(new Amount(BigDecimal.valueOf(minutes % 60), Unit.MINUTE)));
    }
    return String.join(", ", parts);
  }
}
