package tallyback.speech;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Scanner;
import java.util.Set;
import java.util.regex.Pattern;
import tallyback.phrase.Lexicon;

/**
 * The CMU Pronouncing Dictionary as it comes with the acoustic model, the trade's words that it
 * lacks ({@code grammars/pronunciations.dict}), and what a plan adds.
 *
 * <p>The dictionary's 134,000 lines stay as bytes with an index of where each word begins: as
 * objects they would take more memory than the acoustic model.
 *
 * <p>Thread rule: immutable after construction; share freely.
 */
public final class CmuLexicon implements Lexicon {

  private static final String DICTIONARY = "/edu/cmu/sphinx/models/en-us/cmudict-en-us.dict";
  private static final String TRADE_WORDS = "/tallyback/grammars/pronunciations.dict";

  /** The 39 phones of the dictionary and the acoustic model. */
  private static final Set<String> PHONES =
      Set.of(
          "AA", "AE", "AH", "AO", "AW", "AY", "B", "CH", "D", "DH", "EH", "ER", "EY", "F", "G",
          "HH", "IH", "IY", "JH", "K", "L", "M", "N", "NG", "OW", "OY", "P", "R", "S", "SH", "T",
          "TH", "UH", "UW", "V", "W", "Y", "Z", "ZH");

  private static final Pattern VARIANT = Pattern.compile("\\(\\d+\\)$");

  private final byte[] dictionary;
  private final int[] index;
  private final Map<String, List<String>> additions;

  private CmuLexicon(byte[] dictionary, int[] index, Map<String, List<String>> additions) {
    this.dictionary = dictionary;
    this.index = index;
    this.additions = additions;
  }

  /**
   * Reads the dictionary and the trade's words from the jar.
   *
   * @return the lexicon every plan starts from
   */
  public static CmuLexicon load() {
    byte[] dictionary = resource(DICTIONARY);
    return new CmuLexicon(dictionary, indexOf(dictionary), tradeWords());
  }

  /**
   * This lexicon with the pronunciations a plan adds. A word that is already known gains further
   * ways of being said.
   *
   * @param pronunciations by word in lower case: ARPAbet phones separated by blanks, without stress
   *     marks
   * @return a new lexicon
   * @throws UnknownPhones if any pronunciation has something that is not a phone; all of them are
   *     named
   */
  public CmuLexicon with(Map<String, List<String>> pronunciations) {
    List<String> complaints = new ArrayList<>();
    pronunciations.forEach(
        (word, sayings) ->
            sayings.forEach(phones -> complaint(word, phones).ifPresent(complaints::add)));
    if (!complaints.isEmpty()) {
      throw new UnknownPhones(complaints);
    }
    Map<String, List<String>> merged = new HashMap<>(additions);
    pronunciations.forEach(
        (word, sayings) ->
            merged.merge(
                word,
                List.copyOf(sayings),
                (old, more) -> {
                  Set<String> all = new LinkedHashSet<>(old);
                  all.addAll(more);
                  return List.copyOf(all);
                }));
    return new CmuLexicon(dictionary, index, Map.copyOf(merged));
  }

  @Override
  public boolean knows(String word) {
    return additions.containsKey(word) || (isPlain(word) && find(word) >= 0);
  }

  @Override
  public List<String> pronunciations(String word) {
    Set<String> found = new LinkedHashSet<>();
    int at = isPlain(word) ? find(word) : -1;
    for (int way = 2; at >= 0; way++) {
      found.add(phonesAt(at));
      at = find(word + "(" + way + ")");
    }
    found.addAll(additions.getOrDefault(word, List.of()));
    return List.copyOf(found);
  }

  private static Optional<String> complaint(String word, String phones) {
    List<String> unknown =
        Arrays.stream(phones.strip().split("\\s+", -1))
            .filter(phone -> !PHONES.contains(phone))
            .toList();
    return unknown.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "word \""
                + word
                + "\": expected ARPAbet phones without stress marks such as \"T AO R K\", found "
                + (phones.isBlank() ? "nothing" : "\"" + String.join(" ", unknown) + "\""));
  }

  private static Map<String, List<String>> tradeWords() {
    Map<String, List<String>> words = new HashMap<>();
    try (Scanner lines =
        new Scanner(new ByteArrayInputStream(resource(TRADE_WORDS)), StandardCharsets.UTF_8)) {
      while (lines.hasNextLine()) {
        String line = lines.nextLine().strip();
        if (!line.isEmpty() && !line.startsWith("#")) {
          int blank = line.indexOf(' ');
          String word = VARIANT.matcher(line.substring(0, blank)).replaceFirst("");
          words
              .computeIfAbsent(word, unused -> new ArrayList<>())
              .add(line.substring(blank + 1).strip());
        }
      }
    }
    words.replaceAll((word, sayings) -> List.copyOf(sayings));
    return Map.copyOf(words);
  }

  private static byte[] resource(String name) {
    try (InputStream in = CmuLexicon.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("the jar lacks " + name + "; build it again");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + name + " from the jar", e);
    }
  }

  /** An open-addressing table of where each line begins, plus one. */
  private static int[] indexOf(byte[] dictionary) {
    int[] table = new int[1 << 19];
    int start = 0;
    while (start < dictionary.length) {
      int end = start;
      int hash = 0;
      while (dictionary[end] != ' ') {
        hash = 31 * hash + dictionary[end++];
      }
      int slot = slot(hash, table.length);
      while (table[slot] != 0) {
        slot = (slot + 1) & (table.length - 1);
      }
      table[slot] = start + 1;
      start = endOfLine(dictionary, end) + 1;
    }
    return table;
  }

  private static int slot(int hash, int size) {
    return (((hash ^ (hash >>> 15)) * 0x9E3779B1) >>> 7) & (size - 1);
  }

  private static int endOfLine(byte[] text, int from) {
    int at = from;
    while (at < text.length && text[at] != '\n') {
      at++;
    }
    return at;
  }

  /** A further way of saying a word is listed as {@code the(2)}, which is no word. */
  private static boolean isPlain(String word) {
    return !word.isEmpty() && word.indexOf('(') < 0;
  }

  private int find(String word) {
    byte[] wanted = word.getBytes(StandardCharsets.US_ASCII);
    int hash = 0;
    for (byte b : wanted) {
      hash = 31 * hash + b;
    }
    for (int slot = slot(hash, index.length);
        index[slot] != 0;
        slot = (slot + 1) & (index.length - 1)) {
      int start = index[slot] - 1;
      if (startsWith(start, wanted) && dictionary[start + wanted.length] == ' ') {
        return start;
      }
    }
    return -1;
  }

  private boolean startsWith(int start, byte[] wanted) {
    return start + wanted.length < dictionary.length
        && Arrays.equals(dictionary, start, start + wanted.length, wanted, 0, wanted.length);
  }

  private String phonesAt(int start) {
    int end = endOfLine(dictionary, start);
    String line = new String(dictionary, start, end - start, StandardCharsets.US_ASCII);
    return line.substring(line.indexOf(' ') + 1).strip();
  }
}
