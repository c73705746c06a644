package tallyback.phrase;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Unit;
import tallyback.plan.Plan;

/**
 * The entry language of one plan: what may be said, what it means, and how it is said back. The one
 * way into this package.
 *
 * <p>The base grammar comes from {@code grammars/}; the plan adds its names. The same grammar is
 * listened for, read from typed lines and printed on the phrase card.
 *
 * <p>Thread rule: immutable; share freely.
 */
public final class EntryGrammar {

  private static final int EXAMPLES_DRAWN = 60_000;
  private static final long EXAMPLES_SEED = 1;

  private static final List<String> BASE =
      List.of(
          "entry",
          "answers",
          "fluids",
          "items",
          "tightness",
          "readings",
          "states",
          "job",
          "questions",
          "units",
          "numbers");

  private static final int MOST_WORDS = 60;
  private static final int MOST_SUGGESTIONS = 3;
  private static final int MOST_EXPECTED = 6;

  private final CompiledGrammar entries;
  private final CompiledGrammar answers;
  private final StatementReader reader;
  private final ReadBackText readBack;
  private final Plan plan;

  private EntryGrammar(Plan plan, List<JsgfFile> files) {
    // Half of what passes between starting and listening is compiling, so the two go side by side.
    CompletableFuture<CompiledGrammar> other =
        CompletableFuture.supplyAsync(() -> CompiledGrammar.compile(files, "answer"));
    this.entries = CompiledGrammar.compile(files, "entry");
    this.answers = joined(other);
    this.reader = new StatementReader(plan);
    this.readBack = new ReadBackText(plan);
    this.plan = plan;
  }

  /** What was compiled elsewhere; its faults come as if it had been compiled here. */
  private static CompiledGrammar joined(CompletableFuture<CompiledGrammar> other) {
    try {
      return other.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException fault) {
        throw fault;
      }
      throw e;
    }
  }

  /**
   * Makes the grammar of a plan.
   *
   * @param plan the plan; one without any names is fine
   * @return its grammar
   * @throws UnusableGrammarException with every fault that keeps the plan's names from being told
   *     apart
   */
  public static EntryGrammar of(Plan plan) {
    return of(plan, List.of());
  }

  /**
   * Makes the grammar of a plan.
   *
   * @param plan the plan; one without any names is fine
   * @param voices the names of the voices that may be said to be speaking, one word each
   * @return its grammar
   * @throws UnusableGrammarException with every fault that keeps the plan's names from being told
   *     apart
   */
  public static EntryGrammar of(Plan plan, Collection<String> voices) {
    PlanNames names = new PlanNames(plan, voices);
    if (!names.faults().isEmpty()) {
      throw new UnusableGrammarException(names.faults());
    }
    List<JsgfFile> files = new ArrayList<>(BaseFiles.ALL);
    files.add(JsgfReader.read("the plan", names.toJsgf()));
    return new EntryGrammar(plan, files);
  }

  /**
   * Begins to read the base grammar while the caller still reads a plan; calling again does
   * nothing.
   */
  public static void loadAhead() {
    var unused = CompletableFuture.supplyAsync(() -> BaseFiles.ALL);
  }

  /** The base grammar, read when it is first wanted, and once. */
  private static final class BaseFiles {
    private static final List<JsgfFile> ALL =
        BASE.stream().map(name -> JsgfReader.read(name + ".jsgf", base(name))).toList();
  }

  private static String base(String name) {
    String path = "/tallyback/grammars/" + name + ".jsgf";
    try (InputStream in = EntryGrammar.class.getResourceAsStream(path)) {
      if (in == null) {
        throw new IllegalStateException(
            "the jar lacks " + path + ": build it again from a complete source tree");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the jar's " + path + " can't be read", e);
    }
  }

  /** Everything that may be said of one's own accord. */
  public WordGraph entries() {
    return entries.graph();
  }

  /** Everything that may be said when the tool has asked something. */
  public WordGraph answers() {
    return answers.graph();
  }

  /**
   * Reads an entry, typed or heard.
   *
   * @param line words, or a typed line with digits and unit signs
   * @return its meaning, or empty when it is no entry; {@link #whyNot} says why
   */
  public Optional<Meaning> read(String line) {
    return read(entries, line);
  }

  /**
   * Reads an answer, typed or heard.
   *
   * @param line words, or a typed line
   * @return its meaning, or empty when it is no answer; it may still be an entry
   */
  public Optional<Meaning> readAnswer(String line) {
    return read(answers, line);
  }

  /**
   * What a heard phrase comes to, for telling whether two of them would be noted alike: "two point
   * one oh" is as much as "two point one".
   *
   * @param words the words of an entry or an answer
   * @return an object to compare; the words themselves when they are neither
   */
  public Object sense(List<String> words) {
    List<String> shorter = NumberWords.withoutTrailingNoughts(words);
    List<Parse> parses = entries.parse(shorter);
    if (parses.isEmpty()) {
      parses = answers.parse(shorter);
    }
    if (parses.size() != 1) {
      return words;
    }
    Parse parse = parses.get(0);
    return QuestionReader.isQuestion(parse)
        ? QuestionReader.question(parse)
        : reader.meaning(String.join(" ", shorter), parse).sense();
  }

  /**
   * A reader of what another recogniser printed, however it spells and punctuates.
   *
   * @param lexicon how words sound
   * @return the reader, of entries and questions; answers it doesn't know
   */
  public PrintedWords printedWords(Lexicon lexicon) {
    return new PrintedWords(entries(), lexicon, this::sense);
  }

  /**
   * Reads a question, typed or heard.
   *
   * @param line words, or a typed line
   * @return what is asked, or empty when it is no question; it may still be an entry
   */
  public Optional<Question> readQuestion(String line) {
    if (TypedLine.misprint(line) != null) {
      return Optional.empty();
    }
    List<String> words = words(entries, line);
    List<Parse> parses = words.size() > MOST_WORDS ? List.of() : entries.parse(words);
    return parses.size() == 1 && QuestionReader.isQuestion(parses.get(0))
        ? Optional.of(QuestionReader.question(parses.get(0)))
        : Optional.empty();
  }

  private Optional<Meaning> read(CompiledGrammar grammar, String line) {
    if (TypedLine.misprint(line) != null) {
      return Optional.empty();
    }
    List<String> words = words(grammar, line);
    if (words.size() > MOST_WORDS) {
      return Optional.empty();
    }
    List<Parse> parses = grammar.parse(words);
    if (parses.isEmpty()) {
      words = TypedLine.manyAfterNumbers(words);
      parses = grammar.parse(words);
    }
    // Two readings would be a guess; the lint keeps them out, and should it miss one, nothing is
    // noted.
    return parses.size() == 1 && !QuestionReader.isQuestion(parses.get(0))
        ? Optional.of(reader.meaning(String.join(" ", words), parses.get(0)))
        : Optional.empty();
  }

  /** "Guard's off" is heard as "guard off"; only where the grammar has no such word of its own. */
  private static List<String> words(CompiledGrammar grammar, String line) {
    return TypedLine.words(line).stream()
        .map(
            word ->
                word.endsWith("'s") && !grammar.graph().words().contains(word)
                    ? word.substring(0, word.length() - 2)
                    : word)
        .filter(word -> !word.isEmpty())
        .toList();
  }

  /**
   * Why a line is no entry.
   *
   * @param line a line that {@link #read} returned nothing for
   * @return where it goes wrong and the nearest phrases
   */
  public ReadFault whyNot(String line) {
    List<String> words = TypedLine.manyAfterNumbers(words(entries, line));
    String misprint = TypedLine.misprint(line);
    if (misprint != null) {
      return new ReadFault(
          words, 1, List.of(), "\"" + line.strip() + "\"", List.of(), upperFirst(misprint) + ".");
    }
    if (words.size() > MOST_WORDS) {
      String found = words.size() + " words";
      return new ReadFault(
          words,
          MOST_WORDS + 1,
          List.of(),
          found,
          List.of(),
          "Say or type one thing at a time, at most " + MOST_WORDS + " words.");
    }
    int state = entries().start();
    int at = 0;
    while (at < words.size() && entries().next(state, words.get(at)) >= 0) {
      state = entries().next(state, words.get(at));
      at++;
    }
    List<String> expected =
        entries().arcs(state).stream().map(WordGraph.Arc::word).limit(MOST_EXPECTED).toList();
    String found = at < words.size() ? "\"" + words.get(at) + "\"" : "the end of the line";
    List<String> suggestions = new NearestPhrases(entries()).near(words, MOST_SUGGESTIONS);
    String remedy =
        suggestions.isEmpty()
            ? "Look on the phrase card."
            : "Say it one of these ways, or look on the phrase card.";
    return new ReadFault(words, at + 1, at == 0 ? List.of() : expected, found, suggestions, remedy);
  }

  private static String upperFirst(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }

  /** The phrase card: what can be said, by topic, with this plan's own names. */
  public List<CardSection> card() {
    return BASE.stream().flatMap(name -> PhraseCard.sections(base(name), plan).stream()).toList();
  }

  /**
   * How a statement is said back.
   *
   * @param statement any statement
   * @return one short spoken and one short written line
   */
  public ReadBack readBack(Statement statement) {
    return readBack.of(statement);
  }

  /**
   * Whether a word carries a value: of a number, a fraction, a head size, a pass.
   *
   * @param word a word of an entry
   * @return whether another word in its place would be another value
   */
  public static boolean isNumberWord(String word) {
    return NumberWords.isNumberWord(word);
  }

  /**
   * A spoken name as the grammar spells it, in lower case: one spelling for words that sound alike,
   * such as disc for disk.
   */
  public static String spelled(String name) {
    return Spelling.ofName(name);
  }

  /** How a unit is said when there is more than one of it, such as {@code newton metres}. */
  public static String spoken(Unit unit) {
    return UnitWords.unit(unit);
  }

  /**
   * An amount as an answer says it, once more digit by digit where a teen and a ten could be taken
   * for each other: "nineteen, one nine, newton metres".
   */
  public static String spoken(Amount amount) {
    return UnitWords.answered(amount);
  }

  /** A number of things as an answer says it: "six", "thirteen, one three". */
  public static String spoken(int count) {
    return UnitWords.answered(new Amount(BigDecimal.valueOf(count), Unit.UNSAID));
  }

  /** A whole number in plain words, where nothing hangs on it: of a time of day. */
  public static String inWords(int number) {
    return NumberWords.cardinal(number);
  }

  /**
   * A head size as an answer says it: "nine sixteenths inch", "thirteen, one three, millimetres".
   */
  public static String spokenSize(Amount size) {
    return size.unit() == Unit.INCH ? UnitWords.headSize(size) : UnitWords.answered(size);
  }

  /**
   * The whole grammar as one file of the JSpeech Grammar Format, for other readers of the format.
   */
  public String toJsgf() {
    return entries.toJsgf();
  }

  /**
   * Looks for everything that would make the tool hear or note something wrong: words that cannot
   * be heard, phrases with two meanings (decided on the compiled grammar), rules that are unused or
   * hide a branch.
   *
   * @param lexicon how words sound
   * @return every fault; empty when the grammar is fit for use
   */
  public List<GrammarFault> lint(Lexicon lexicon) {
    Set<GrammarFault> faults = new LinkedHashSet<>();
    for (CompiledGrammar grammar : List.of(entries, answers)) {
      faults.addAll(GrammarLint.check(grammar));
      faults.addAll(GrammarLint.unpronounceable(grammar, lexicon));
    }
    return List.copyOf(faults);
  }

  /**
   * Examples of what may be noted, for recognisers that learn from them what is said and how often:
   * each branch of the grammar comes as often as its siblings, and each word at least once.
   *
   * @return some twenty thousand different phrases, always the same
   */
  public List<List<String>> examples() {
    PhraseMaker maker = new PhraseMaker(entries, new Random(EXAMPLES_SEED));
    Set<List<String>> phrases = new LinkedHashSet<>();
    Set<String> unsaid = new HashSet<>(entries().words());
    for (int i = 0; i < EXAMPLES_DRAWN; i++) {
      List<String> phrase = maker.next();
      phrases.add(phrase);
      phrase.forEach(unsaid::remove);
    }
    for (List<String> phrase : maker.restOfCoverage()) {
      if (unsaid.removeAll(phrase)) {
        phrases.add(phrase);
      }
    }
    return List.copyOf(phrases);
  }

  /** For the lint and the phrase maker. */
  CompiledGrammar compiledEntries() {
    return entries;
  }

  /** For the lint and the phrase maker. */
  CompiledGrammar compiledAnswers() {
    return answers;
  }
}
