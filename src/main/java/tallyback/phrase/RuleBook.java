package tallyback.phrase;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.function.Predicate;

/**
 * All rules of all files under their names, and what can be known of them without compiling: which
 * are missing, doubled, unused, recursive, or can match nothing.
 *
 * <p>Thread rule: immutable once made.
 */
final class RuleBook {

  private final Map<String, JsgfRule> rules = new LinkedHashMap<>();
  private final List<GrammarFault> doubled = new ArrayList<>();
  private final List<GrammarFault> misread = new ArrayList<>();
  private final String root;

  RuleBook(List<JsgfFile> files, String root) {
    this.root = root;
    for (JsgfFile file : files) {
      misread.addAll(file.faults());
      file.rules().forEach(this::add);
    }
  }

  private void add(JsgfRule rule) {
    JsgfRule earlier = rules.putIfAbsent(rule.name(), rule);
    if (earlier != null) {
      doubled.add(
          fault(
              rule,
              rule.line(),
              "each rule once",
              "<" + rule.name() + "> again, first at " + earlier.source() + ":" + earlier.line(),
              "Rename one, or join the two with '|'."));
    }
  }

  /** All rules, in the order in which they are written. */
  Collection<JsgfRule> rules() {
    return Collections.unmodifiableCollection(rules.values());
  }

  /** The name of the rule that every phrase begins with. */
  String root() {
    return root;
  }

  /** A rule by its name, which a reference that {@link #faults()} passed is sure to find. */
  JsgfRule rule(String name) {
    JsgfRule rule = rules.get(name);
    if (rule == null) {
      throw new IllegalStateException(
          "rule <" + name + "> is missing; the faults of the book were not looked at");
    }
    return rule;
  }

  /** Everything that keeps the rules from being compiled. */
  List<GrammarFault> faults() {
    List<GrammarFault> faults = new ArrayList<>(misread);
    faults.addAll(doubled);
    if (misread.isEmpty()) {
      // A file that could not be read to its end lacks rules; naming those too would only bury the
      // first fault.
      faults.addAll(undefined());
    }
    List<GrammarFault> recursive = recursive();
    faults.addAll(recursive);
    if (recursive.isEmpty()) {
      faults.addAll(emptyLoops());
    }
    if (faults.isEmpty() && !sayable().contains(root)) {
      faults.add(
          fault(
              rule(root),
              rule(root).line(),
              "at least one phrase that can be said",
              "<" + root + ">, which matches nothing",
              "Give it a branch that has no <VOID> in it."));
    }
    return faults;
  }

  private List<GrammarFault> undefined() {
    List<GrammarFault> faults = new ArrayList<>();
    if (!rules.containsKey(root)) {
      faults.add(
          new GrammarFault(
              "the grammar",
              1,
              "a rule <" + root + "> to begin with",
              "none",
              "Write it, or name another rule to begin with."));
    }
    for (JsgfRule rule : rules.values()) {
      rule.expansion()
          .references()
          .filter(reference -> !rules.containsKey(reference.rule()))
          .map(
              reference ->
                  fault(
                      rule,
                      reference.line(),
                      "a rule that exists",
                      "<" + reference.rule() + "> in rule <" + rule.name() + ">",
                      "Write that rule, or correct its name."))
          .distinct()
          .forEach(faults::add);
    }
    return faults;
  }

  /** Rules that neither the root nor any public rule leads to. */
  List<GrammarFault> unused() {
    Set<String> used = new HashSet<>();
    ArrayDeque<String> open = new ArrayDeque<>();
    open.add(root);
    rules.values().stream().filter(JsgfRule::isPublic).map(JsgfRule::name).forEach(open::add);
    while (!open.isEmpty()) {
      JsgfRule rule = rules.get(open.remove());
      if (rule != null && used.add(rule.name())) {
        rule.expansion().references().forEach(reference -> open.add(reference.rule()));
      }
    }
    return rules.values().stream()
        .filter(rule -> misread.isEmpty() && !used.contains(rule.name()))
        .map(
            rule ->
                fault(
                    rule,
                    rule.line(),
                    "every rule to be used",
                    "<" + rule.name() + ">, which no public rule leads to",
                    "Refer to it, make it public, or take it away."))
        .toList();
  }

  /** Rings of rules, each named once, beginning with the rule of the ring that is written first. */
  private List<GrammarFault> recursive() {
    Map<String, List<String>> references = new HashMap<>();
    rules
        .values()
        .forEach(
            rule ->
                references.put(
                    rule.name(),
                    rule.expansion().references().map(Expansion.Reference::rule).toList()));
    Set<String> suspects = onOrBeforeRings(references);
    List<GrammarFault> faults = new ArrayList<>();
    Set<String> named = new HashSet<>();
    for (JsgfRule rule : rules.values()) {
      List<String> ring =
          named.contains(rule.name()) || !suspects.contains(rule.name())
              ? List.of()
              : wayBackTo(rule.name(), references);
      if (!ring.isEmpty()) {
        named.addAll(ring);
        faults.add(
            fault(
                rule,
                rule.line(),
                "no rule that leads back to itself",
                "<" + String.join("> -> <", ring) + "> -> <" + rule.name() + ">",
                "Write a repeat with '*' or '+' instead."));
      }
    }
    return faults;
  }

  /**
   * The rules that are left when those that lead to no other are taken away again and again (A. B.
   * Kahn, <cite>Topological sorting of large networks</cite>, 1962): none in a sound grammar.
   */
  private static Set<String> onOrBeforeRings(Map<String, List<String>> references) {
    Map<String, List<String>> usedBy = new HashMap<>();
    Map<String, Integer> waitingFor = new HashMap<>();
    ArrayDeque<String> settled = new ArrayDeque<>();
    references.forEach(
        (rule, used) -> {
          List<String> known = used.stream().filter(references::containsKey).toList();
          known.forEach(
              each -> usedBy.computeIfAbsent(each, unused -> new ArrayList<>()).add(rule));
          waitingFor.put(rule, known.size());
          if (known.isEmpty()) {
            settled.add(rule);
          }
        });
    Set<String> left = new HashSet<>(references.keySet());
    while (!settled.isEmpty()) {
      String rule = settled.remove();
      left.remove(rule);
      for (String user : usedBy.getOrDefault(rule, List.of())) {
        if (waitingFor.merge(user, -1, Integer::sum) == 0) {
          settled.add(user);
        }
      }
    }
    return left;
  }

  /**
   * The shortest way of references from a rule back to itself, beginning with it; empty when there
   * is none.
   */
  private static List<String> wayBackTo(String name, Map<String, List<String>> references) {
    Map<String, String> cameFrom = new HashMap<>();
    ArrayDeque<String> open = new ArrayDeque<>(List.of(name));
    while (!open.isEmpty()) {
      String from = open.remove();
      for (String to : references.getOrDefault(from, List.of())) {
        if (to.equals(name)) {
          return wayTo(from, name, cameFrom);
        }
        if (cameFrom.putIfAbsent(to, from) == null) {
          open.add(to);
        }
      }
    }
    return List.of();
  }

  private static List<String> wayTo(String last, String first, Map<String, String> cameFrom) {
    List<String> way = new ArrayList<>();
    for (String at = last; !at.equals(first); at = cameFrom.getOrDefault(at, first)) {
      way.add(at);
    }
    way.add(first);
    Collections.reverse(way);
    return way;
  }

  /** Repeats whose inside can be said by saying nothing: they would go round for ever. */
  private List<GrammarFault> emptyLoops() {
    Set<String> silent = rulesThat(Expansion::canBeSilent);
    List<GrammarFault> faults = new ArrayList<>();
    for (JsgfRule rule : rules.values()) {
      rule.expansion()
          .nodes()
          .filter(
              node ->
                  node instanceof Expansion.Repeat repeat
                      && repeat.body().canBeSilent(silent::contains))
          .map(
              node ->
                  fault(
                      rule,
                      node.line(),
                      "at least one word each time round a '*' or '+'",
                      "a repeat in rule <"
                          + rule.name()
                          + "> whose inside can be said by saying nothing",
                      "Take the option, '*' or <NULL> out of the repeat."))
          .forEach(faults::add);
    }
    return faults;
  }

  /**
   * {@code <VOID>} as a part of something longer: it makes that branch unsayable, and nothing else
   * would tell.
   */
  List<GrammarFault> hiddenVoids() {
    List<GrammarFault> faults = new ArrayList<>();
    for (JsgfRule rule : rules.values()) {
      if (!(rule.expansion() instanceof Expansion.Never)) {
        rule.expansion()
            .nodes()
            .filter(Expansion.Never.class::isInstance)
            .map(
                node ->
                    fault(
                        rule,
                        node.line(),
                        "<VOID> only as a whole rule, '<name> = <VOID>;'",
                        "<VOID> inside rule <"
                            + rule.name()
                            + ">, where it takes its branch away silently",
                        "Take the branch away, or give the missing part a rule of its own."))
            .forEach(faults::add);
      }
    }
    return faults;
  }

  /**
   * Notes, not faults: rules that nobody can say because a rule they need was left empty with
   * {@code <VOID>}, as a plan without fluids leaves the names of fluids empty.
   */
  List<GrammarFault> emptied() {
    Set<String> sayable = sayable();
    return rules.values().stream()
        .filter(
            rule ->
                !sayable.contains(rule.name()) && !(rule.expansion() instanceof Expansion.Never))
        .map(
            rule ->
                fault(
                    rule,
                    rule.line(),
                    "<" + rule.name() + "> to be sayable",
                    "that it needs " + emptyNeedOf(rule, sayable) + ", which is empty",
                    "Fill that rule if phrases of <" + rule.name() + "> are wanted."))
        .toList();
  }

  private static String emptyNeedOf(JsgfRule rule, Set<String> sayable) {
    return rule.expansion()
        .references()
        .map(Expansion.Reference::rule)
        .filter(name -> !sayable.contains(name))
        .findFirst()
        .map(name -> "<" + name + ">")
        .orElse("<VOID>");
  }

  /** The names of the rules that can be said. */
  Set<String> sayable() {
    return rulesThat(Expansion::canBeSaid);
  }

  /** The rules with a property that rises from the parts to the whole: the least fixed point. */
  private Set<String> rulesThat(BiPredicate<Expansion, Predicate<String>> property) {
    Set<String> holding = new HashSet<>();
    boolean grown = true;
    while (grown) {
      grown = false;
      for (JsgfRule rule : rules.values()) {
        if (!holding.contains(rule.name()) && property.test(rule.expansion(), holding::contains)) {
          grown |= holding.add(rule.name());
        }
      }
    }
    return holding;
  }

  private static GrammarFault fault(
      JsgfRule rule, int line, String expected, String found, String remedy) {
    return new GrammarFault(rule.source(), line, expected, found, remedy);
  }
}
