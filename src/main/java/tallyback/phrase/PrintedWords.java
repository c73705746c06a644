package tallyback.phrase;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;

/**
 * What a recogniser of any kind printed, as a phrase of the grammar. Such recognisers write as
 * people do: "6 bolts, 10 mm, out of the splashguard.", "torqued to 1,200 N·m". Figures and signs
 * of units become words; blanks, hyphens and commas count for nothing; and a word that sounds like
 * one of the grammar is that word, since whoever printed it only heard it ("to", "too" and "two").
 * Where nothing fits so, one word may have an ending that is hardly heard, or lack it ("torque the
 * fan nuts" for "torqued the fan nuts").
 *
 * <p>What could be phrases of different meaning is none: nobody can tell which was heard.
 *
 * <p>Thread rule: immutable; share freely.
 */
public final class PrintedWords {

  private static final int MOST_CHARACTERS = 1000;
  private static final int MOST_TOKENS = 60;

  /** So many phrases for one line are more than a choice between words that sound alike. */
  private static final int MOST_PHRASES = 64;

  /** Wanting in an entry or too many, they change nothing; and what people say while they think. */
  private static final Set<String> PASSED_OVER = Set.of("the", "uh", "um", "er", "erm", "hm");

  /** What a recogniser adds of its own: "[music]", "(engine running)". */
  private static final Pattern REMARK = Pattern.compile("\\[[^\\]]*]|\\([^)]*\\)|\\*[^*]*\\*");

  private static final Pattern THOUSANDS = Pattern.compile("(?<=\\d),(?=\\d{3}(?!\\d))");
  private static final Pattern OTHER_COMMA = Pattern.compile("\\d,\\d");
  private static final Pattern ENDING_OF_PARTS = Pattern.compile("(?<=/\\d{1,2})(?:ths?|s)\\b");
  private static final Pattern NO_SIGN =
      Pattern.compile("[^\\p{L}\\p{N}.'’/%°Ω\\u2126\"\\u2033·*−-]|(?<=\\d)-(?=\\d)|-(?=\\s|$)");
  private static final Pattern FULL_STOP = Pattern.compile("\\.(?![\\p{L}\\d])");

  private static final List<String> FAINT_ENDINGS =
      List.of(" D", " T", " Z", " S", " IH D", " AH D");

  private final WordGraph graph;
  private final Lexicon lexicon;
  private final Function<List<String>, Object> sense;
  private final Map<String, Set<String>> bySound = new HashMap<>();

  PrintedWords(WordGraph graph, Lexicon lexicon, Function<List<String>, Object> sense) {
    this.graph = graph;
    this.lexicon = lexicon;
    this.sense = sense;
    for (String word : graph.words()) {
      for (String phones : lexicon.pronunciations(word)) {
        bySound.computeIfAbsent(phones, each -> new LinkedHashSet<>()).add(word);
      }
    }
  }

  /**
   * Reads a line.
   *
   * @param printed anything
   * @return a phrase of the grammar; empty when it is none, or could be two of different meaning
   */
  public Optional<List<String>> phrase(String printed) {
    List<String> tokens = tokens(printed);
    if (tokens.isEmpty() || tokens.size() > MOST_TOKENS) {
      return Optional.empty();
    }
    Set<List<String>> found = new LinkedHashSet<>(new Walk(tokens, -1).phrases());
    if (found.isEmpty()) {
      // One word and no more, or "torque the nut" could be anything.
      for (int loose = 0; loose < tokens.size(); loose++) {
        found.addAll(new Walk(tokens, loose).phrases());
      }
    }
    boolean many = found.size() >= MOST_PHRASES;
    return !many && found.stream().map(sense).distinct().count() == 1
        ? Optional.of(found.iterator().next())
        : Optional.empty();
  }

  /** The line in words, as nearly as they can be told without the grammar. */
  static List<String> tokens(String printed) {
    if (printed.length() > MOST_CHARACTERS) {
      return List.of();
    }
    String text = REMARK.matcher(printed).replaceAll(" ");
    text = THOUSANDS.matcher(text).replaceAll("");
    if (OTHER_COMMA.matcher(text).find()) {
      // Two numbers, or one with a decimal comma.
      return List.of();
    }
    text = ENDING_OF_PARTS.matcher(text).replaceAll("");
    text = NO_SIGN.matcher(text).replaceAll(" ");
    text = FULL_STOP.matcher(text).replaceAll(" ");
    return TypedLine.words(text).stream().filter(word -> !word.isEmpty()).toList();
  }

  /** Words of the grammar that sound like this one. */
  private Set<String> alike(String token, boolean loosely) {
    Set<String> alike = new LinkedHashSet<>();
    alike.add(token);
    if (token.endsWith("'s")) {
      alike.add(token.substring(0, token.length() - 2));
    }
    for (String phones : lexicon.pronunciations(token)) {
      alike.addAll(bySound.getOrDefault(phones, Set.of()));
      if (loosely) {
        for (String ending : FAINT_ENDINGS) {
          alike.addAll(bySound.getOrDefault(phones + ending, Set.of()));
          if (phones.endsWith(ending)) {
            String without = phones.substring(0, phones.length() - ending.length());
            alike.addAll(bySound.getOrDefault(without, Set.of()));
          }
        }
      }
    }
    alike.remove("");
    return alike;
  }

  /** All phrases of the grammar that are spelled as the tokens are, wherever the blanks stand. */
  private final class Walk {

    private final List<String> tokens;
    private final List<Set<String>> spellings;
    private final Set<List<String>> found = new LinkedHashSet<>();
    private final Set<Place> leadsNowhere = new HashSet<>();
    private final List<String> path = new ArrayList<>();

    /** Between two words of the grammar, within a token. */
    private record Place(int state, int token, String spelling, int offset) {}

    /** With one token taken loosely; -1 for none. */
    Walk(List<String> tokens, int loose) {
      this.tokens = tokens;
      this.spellings = new ArrayList<>();
      for (int token = 0; token < tokens.size(); token++) {
        spellings.add(alike(tokens.get(token), token == loose));
      }
    }

    Set<List<String>> phrases() {
      from(graph.start(), 0);
      return Collections.unmodifiableSet(found);
    }

    /** Goes on at the beginning of a token; false if that leads nowhere. */
    private boolean from(int state, int token) {
      if (token == tokens.size()) {
        if (graph.isFinal(state) && found.size() < MOST_PHRASES) {
          found.add(List.copyOf(path));
        }
        return graph.isFinal(state);
      }
      boolean any = false;
      for (String spelling : spellings.get(token)) {
        any |= within(state, token, spelling, 0);
      }
      return (PASSED_OVER.contains(tokens.get(token)) && from(state, token + 1)) || any;
    }

    private boolean within(int state, int token, String spelling, int offset) {
      Place place = new Place(state, token, spelling, offset);
      if (found.size() >= MOST_PHRASES || leadsNowhere.contains(place)) {
        return false;
      }
      boolean any = false;
      for (WordGraph.Arc arc : graph.arcs(state)) {
        path.add(arc.word());
        any |= spelled(arc, 0, token, spelling, offset);
        path.remove(path.size() - 1);
      }
      if (!any) {
        leadsNowhere.add(place);
      }
      return any;
    }

    /** Goes on behind a word of the grammar of which so many letters were met already. */
    private boolean spelled(WordGraph.Arc arc, int met, int token, String spelling, int offset) {
      String word = arc.word();
      int common = Math.min(word.length() - met, spelling.length() - offset);
      if (!word.regionMatches(met, spelling, offset, common)) {
        return false;
      }
      if (met + common == word.length()) {
        return offset + common == spelling.length()
            ? from(arc.target(), token + 1)
            : within(arc.target(), token, spelling, offset + common);
      }
      boolean any = false;
      if (token + 1 < tokens.size()) {
        for (String next : spellings.get(token + 1)) {
          any |= spelled(arc, met + common, token + 1, next, 0);
        }
      }
      return any;
    }
  }
}
