package tallyback.phrase;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * What a small grammar says, by writing out all phrases up to a length from the meaning of each
 * construct, without any automaton: the yardstick for the compiled grammar.
 */
final class Enumerated {

  /** A phrase and what it gives, with all words still marked in it. */
  private record Said(List<String> words, List<Piece> marks) {}

  private final Map<String, JsgfRule> rules;
  private final int mostWords;

  private Enumerated(Map<String, JsgfRule> rules, int mostWords) {
    this.rules = rules;
    this.mostWords = mostWords;
  }

  /** All phrases of up to so many words with all their readings. */
  static Map<String, Set<String>> readings(Collection<JsgfRule> rules, String root, int mostWords) {
    Map<String, JsgfRule> byName =
        rules.stream().collect(Collectors.toMap(JsgfRule::name, rule -> rule));
    Map<String, Set<String>> readings = new TreeMap<>();
    for (Said said : new Enumerated(byName, mostWords).of(new Expansion.Reference(root, 1))) {
      readings
          .computeIfAbsent(String.join(" ", said.words()), unused -> new LinkedHashSet<>())
          .add(new Parse(kept(said.marks())).toString());
    }
    return readings;
  }

  private static List<Piece> kept(List<Piece> marks) {
    List<Piece> kept = new ArrayList<>();
    boolean keeping = false;
    for (Piece mark : marks) {
      if (mark instanceof Piece.Tag tag) {
        keeping = tag.text().endsWith("<") || (keeping && !tag.text().equals(">"));
      }
      if (keeping || mark instanceof Piece.Tag) {
        kept.add(mark);
      }
    }
    return kept;
  }

  private Set<Said> of(Expansion expansion) {
    Set<Said> all = new LinkedHashSet<>();
    Said nothing = new Said(List.of(), List.of());
    if (expansion instanceof Expansion.Word word) {
      all.add(new Said(List.of(word.text()), List.of(new Piece.Word(word.text()))));
    } else if (expansion instanceof Expansion.Tag tag) {
      all.add(new Said(List.of(), List.of(new Piece.Tag(tag.text()))));
    } else if (expansion instanceof Expansion.Nothing) {
      all.add(nothing);
    } else if (expansion instanceof Expansion.Reference reference) {
      all.addAll(of(requireNonNull(rules.get(reference.rule())).expansion()));
    } else if (expansion instanceof Expansion.Choice choice) {
      choice.branches().forEach(branch -> all.addAll(of(branch)));
    } else if (expansion instanceof Expansion.Maybe maybe) {
      all.add(nothing);
      all.addAll(of(maybe.body()));
    } else if (expansion instanceof Expansion.Sequence sequence) {
      Set<Said> sofar = Set.of(nothing);
      for (Expansion part : sequence.parts()) {
        sofar = product(sofar, of(part));
      }
      all.addAll(sofar);
    } else if (expansion instanceof Expansion.Repeat repeat) {
      Set<Said> once = of(repeat.body());
      Set<Said> round = repeat.atLeastOnce() ? once : Set.of(nothing);
      while (all.addAll(round)) {
        round = product(round, once);
      }
    }
    return all;
  }

  private Set<Said> product(Set<Said> first, Set<Said> second) {
    Set<Said> all = new LinkedHashSet<>();
    for (Said a : first) {
      for (Said b : second) {
        if (a.words().size() + b.words().size() <= mostWords) {
          all.add(new Said(joined(a.words(), b.words()), joined(a.marks(), b.marks())));
        }
      }
    }
    return all;
  }

  private static <T> List<T> joined(List<T> first, List<T> second) {
    List<T> both = new ArrayList<>(first);
    both.addAll(second);
    return both;
  }
}
