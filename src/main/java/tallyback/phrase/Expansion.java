package tallyback.phrase;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The right-hand side of a rule, as a tree. Each kind of node is one construct of the JSpeech
 * Grammar Format.
 */
sealed interface Expansion {

  /** The line on which it begins, counted from 1. */
  int line();

  /** The nodes right below this one. */
  default List<Expansion> children() {
    return List.of();
  }

  /** Whether it can be said by saying nothing, when it is known of which rules that holds. */
  boolean canBeSilent(Predicate<String> silentRules);

  /** Whether it can be said at all, when it is known of which rules that holds. */
  boolean canBeSaid(Predicate<String> sayableRules);

  /** This node and all below it, from the top and the left. */
  default Stream<Expansion> nodes() {
    List<Expansion> all = new ArrayList<>();
    gather(this, all);
    return all.stream();
  }

  private static void gather(Expansion from, List<Expansion> all) {
    all.add(from);
    for (Expansion child : from.children()) {
      gather(child, all);
    }
  }

  /** All references below this node, in order. */
  default Stream<Reference> references() {
    return nodes().filter(Reference.class::isInstance).map(Reference.class::cast);
  }

  /** A word that is said. */
  record Word(String text, int line) implements Expansion {
    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return false;
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return true;
    }
  }

  /** A tag; it stands in a {@link Sequence} after what it belongs to. */
  record Tag(String text, int line) implements Expansion {
    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return true;
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return true;
    }
  }

  /** Another rule, by its name without the angle brackets. */
  record Reference(String rule, int line) implements Expansion {
    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return silentRules.test(rule);
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return sayableRules.test(rule);
    }
  }

  /** {@code <NULL>}: said by saying nothing. */
  record Nothing(int line) implements Expansion {
    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return true;
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return true;
    }
  }

  /** {@code <VOID>}: cannot be said. */
  record Never(int line) implements Expansion {
    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return false;
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return false;
    }
  }

  /** One after the other. */
  record Sequence(List<Expansion> parts, int line) implements Expansion {
    public Sequence {
      parts = List.copyOf(parts);
    }

    @Override
    public List<Expansion> children() {
      return parts;
    }

    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return parts.stream().allMatch(part -> part.canBeSilent(silentRules));
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return parts.stream().allMatch(part -> part.canBeSaid(sayableRules));
    }
  }

  /**
   * One of several. The weights are how often each is said; they are kept for the export and change
   * nothing here.
   *
   * @param weights one for each branch, or none
   */
  record Choice(List<Expansion> branches, List<BigDecimal> weights, int line) implements Expansion {
    public Choice {
      branches = List.copyOf(branches);
      weights = List.copyOf(weights);
    }

    @Override
    public List<Expansion> children() {
      return branches;
    }

    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return branches.stream().anyMatch(branch -> branch.canBeSilent(silentRules));
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return branches.stream().anyMatch(branch -> branch.canBeSaid(sayableRules));
    }
  }

  /** Said or left out. */
  record Maybe(Expansion body, int line) implements Expansion {
    @Override
    public List<Expansion> children() {
      return List.of(body);
    }

    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return true;
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return true;
    }
  }

  /** Said again and again: once or more, or not at all. */
  record Repeat(Expansion body, boolean atLeastOnce, int line) implements Expansion {
    @Override
    public List<Expansion> children() {
      return List.of(body);
    }

    @Override
    public boolean canBeSilent(Predicate<String> silentRules) {
      return !atLeastOnce || body.canBeSilent(silentRules);
    }

    @Override
    public boolean canBeSaid(Predicate<String> sayableRules) {
      return !atLeastOnce || body.canBeSaid(sayableRules);
    }
  }
}
