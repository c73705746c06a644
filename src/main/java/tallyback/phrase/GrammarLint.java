package tallyback.phrase;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Looks through a grammar for everything that would make the tool hear or note something wrong:
 * words that cannot be heard, phrases with two meanings, rules that turn in circles, are missing,
 * unused or empty.
 *
 * <p>Thread rule: no state; use from any thread.
 */
final class GrammarLint {

  /**
   * So many confusions are named; a grammar with more is better looked at after the first are
   * mended.
   */
  private static final int MOST_AMBIGUITIES = 20;

  /** Tags that name a thing of the plan. */
  private static final Pattern NAMING =
      Pattern.compile("(item|at|step|fluid|person|vessel|wrench|gauge|mark):.+");

  private GrammarLint() {}

  /**
   * All checks that need no pronunciations.
   *
   * @param files the files; all their rules share one namespace
   * @param rootRule the rule that every phrase begins with, without brackets
   * @return every fault; empty when the grammar is fit for use
   */
  static List<GrammarFault> check(List<JsgfFile> files, String rootRule) {
    RuleBook book = new RuleBook(files, rootRule);
    List<GrammarFault> faults = new ArrayList<>(book.faults());
    boolean canBeCompiled = faults.isEmpty();
    faults.addAll(book.unused());
    faults.addAll(book.hiddenVoids());
    if (canBeCompiled) {
      try {
        faults.addAll(ambiguities(CompiledGrammar.compile(files, rootRule)));
      } catch (UnusableGrammarException unusable) {
        faults.addAll(unusable.faults());
      }
    }
    return faults;
  }

  /**
   * All checks that need no pronunciations, on a grammar that could be compiled.
   *
   * @param grammar the grammar
   * @return every fault; empty when the grammar is fit for use
   */
  static List<GrammarFault> check(CompiledGrammar grammar) {
    List<GrammarFault> faults = new ArrayList<>(grammar.book().unused());
    faults.addAll(grammar.book().hiddenVoids());
    faults.addAll(ambiguities(grammar));
    return faults;
  }

  /**
   * Words that no recogniser could hear, because nobody knows how they sound.
   *
   * @param grammar the grammar
   * @param lexicon the pronunciations
   * @return one fault for each such word, at the first place where it stands
   */
  static List<GrammarFault> unpronounceable(CompiledGrammar grammar, Lexicon lexicon) {
    Map<String, GrammarFault> faults = new LinkedHashMap<>();
    for (JsgfRule rule : grammar.book().rules()) {
      rule.expansion()
          .nodes()
          .filter(Expansion.Word.class::isInstance)
          .map(Expansion.Word.class::cast)
          .filter(word -> !lexicon.knows(word.text()))
          .forEach(
              word ->
                  faults.putIfAbsent(
                      word.text(),
                      new GrammarFault(
                          rule.source(),
                          word.line(),
                          "words with a known pronunciation",
                          "'" + word.text() + "' in rule <" + rule.name() + ">",
                          "Give its pronunciation, or use another word.",
                          Optional.of(word.text()),
                          List.of())));
    }
    return List.copyOf(faults.values());
  }

  /**
   * Notes, not faults: rules that cannot be said because a rule they need was left empty.
   *
   * @param grammar the grammar
   * @return one note for each such rule
   */
  static List<GrammarFault> emptied(CompiledGrammar grammar) {
    return grammar.book().emptied();
  }

  /**
   * Phrases that can be read in two ways, decided on the compiled grammar.
   *
   * @param grammar the grammar
   * @return one fault for each kind of confusion, at most twenty, each with a phrase and both
   *     readings; empty exactly if every phrase has one reading
   */
  static List<GrammarFault> ambiguities(CompiledGrammar grammar) {
    return TwoReadings.in(grammar.transducer(), MOST_AMBIGUITIES).stream()
        .map(witness -> fault(grammar, witness))
        .toList();
  }

  private static GrammarFault fault(CompiledGrammar grammar, TwoReadings.Witness witness) {
    List<PhraseNetwork.Place> first =
        Origins.of(grammar.network(), witness.phrase(), witness.first());
    List<PhraseNetwork.Place> second =
        Origins.of(grammar.network(), witness.phrase(), witness.second());
    int apart = firstDifference(witness.first().pieces(), witness.second().pieces());
    PhraseNetwork.Place here = first.get(Math.min(apart, first.size() - 1));
    PhraseNetwork.Place there = second.get(Math.min(apart, second.size() - 1));
    return new GrammarFault(
        here.source(),
        here.line(),
        "one meaning for each phrase",
        "\""
            + String.join(" ", witness.phrase())
            + "\", read as "
            + shown(witness.first())
            + " and as "
            + shown(witness.second()),
        here.equals(there)
            ? "Give the two ways through " + here + " different words, or keep only one."
            : "Take the phrase away from " + here + " or from " + there + ".",
        Optional.empty(),
        thingsIn(witness));
  }

  /** Ids of the plan that only one of the two readings speaks of, or else those of both. */
  private static List<String> thingsIn(TwoReadings.Witness witness) {
    Set<String> first = things(witness.first());
    Set<String> second = things(witness.second());
    Set<String> all = new LinkedHashSet<>(first);
    all.addAll(second);
    List<String> only =
        all.stream().filter(id -> first.contains(id) != second.contains(id)).toList();
    return only.isEmpty() ? List.copyOf(all) : only;
  }

  private static Set<String> things(Parse parse) {
    Set<String> ids = new LinkedHashSet<>();
    for (Piece piece : parse.pieces()) {
      if (piece instanceof Piece.Tag tag && NAMING.matcher(tag.text()).matches()) {
        ids.add(tag.text().substring(tag.text().indexOf(':') + 1));
      }
    }
    return ids;
  }

  private static String shown(Parse parse) {
    return parse.pieces().isEmpty() ? "nothing" : parse.toString();
  }

  private static int firstDifference(List<Piece> first, List<Piece> second) {
    int at = 0;
    while (at < first.size() && at < second.size() && first.get(at).equals(second.get(at))) {
      at++;
    }
    return at;
  }
}
