package tallyback.reconcile;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.Aligned;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.Tightened;

/**
 * A job being told, so that a test can change it: statements in order, turned into entries a second
 * apart.
 */
final class Telling {

  /** One thing told; the time is its place unless another is given. */
  static final class Told {
    Statement statement;
    Certainty certainty = Certainty.CONFIRMED;
    @Nullable Told happenedBefore;
    long lateSeconds;

    Told(Statement statement) {
      this.statement = statement;
    }
  }

  private static final Instant START = Instant.parse("2026-03-02T08:00:00Z");

  private final List<Told> told = new ArrayList<>();
  private final List<EarlierFill> past = new ArrayList<>();

  /** A job of what was told elsewhere. */
  static Telling of(List<Told> told) {
    Telling job = new Telling();
    job.told.addAll(told);
    return job;
  }

  /** From a place on, the clock shows so much more, or less. */
  void setClock(int from, long seconds) {
    told.subList(from, told.size()).forEach(each -> each.lateSeconds += seconds);
  }

  void say(Statement statement) {
    told.add(new Told(statement));
  }

  /** Earlier jobs, to which a test may add. */
  List<EarlierFill> past() {
    return past;
  }

  List<Told> told() {
    return told;
  }

  int size() {
    return told.size();
  }

  /** Place of the first that fits, or -1. */
  int find(Predicate<Statement> wanted) {
    for (int index = 0; index < told.size(); index++) {
      if (wanted.test(told.get(index).statement)) {
        return index;
      }
    }
    return -1;
  }

  /** Place of the last that fits, or -1. */
  int findLast(Predicate<Statement> wanted) {
    for (int index = told.size() - 1; index >= 0; index--) {
      if (wanted.test(told.get(index).statement)) {
        return index;
      }
    }
    return -1;
  }

  void insert(int index, Statement statement) {
    told.add(index, new Told(statement));
  }

  boolean change(int index, UnaryOperator<Statement> change) {
    if (index < 0) {
      return false;
    }
    told.get(index).statement = change.apply(told.get(index).statement);
    return true;
  }

  boolean remove(Predicate<Statement> unwanted) {
    return told.removeIf(each -> unwanted.test(each.statement));
  }

  /** Tells the items of each stretch in another order; what is said of one item keeps its order. */
  void shuffleItemsBetweenOtherEntries(Random random) {
    List<Told> shuffled = new ArrayList<>();
    Map<String, List<Told>> stretch = new LinkedHashMap<>();
    for (Told each : told) {
      String item = itemOf(each.statement);
      if (item == null) {
        flush(stretch, shuffled, random);
        shuffled.add(each);
      } else {
        stretch.computeIfAbsent(item, key -> new ArrayList<>()).add(each);
      }
    }
    flush(stretch, shuffled, random);
    told.clear();
    told.addAll(shuffled);
  }

  private static void flush(Map<String, List<Told>> stretch, List<Told> shuffled, Random random) {
    List<List<Told>> items = new ArrayList<>(stretch.values());
    Collections.shuffle(items, random);
    items.forEach(shuffled::addAll);
    stretch.clear();
  }

  private static @Nullable String itemOf(Statement statement) {
    if (statement instanceof ItemsMoved moved) {
      return moved.item();
    }
    if (statement instanceof Tightened tightened) {
      return tightened.item();
    }
    if (statement instanceof Aligned aligned) {
      return aligned.item();
    }
    return statement instanceof PartFitted fitted ? fitted.item() : null;
  }

  List<Entry> entries() {
    List<Entry> entries = new ArrayList<>();
    for (int index = 0; index < told.size(); index++) {
      Told each = told.get(index);
      Told before = each.happenedBefore;
      Instant happened =
          before == null
              ? START.plusSeconds(index * 60L + each.lateSeconds)
              : START.plusSeconds(told.indexOf(before) * 60L - 30);
      String id = "e" + (index + 1);
      entries.add(
          new Entry(
              id,
              "job",
              index + 1L,
              happened,
              START.plusSeconds(index * 60L + each.lateSeconds),
              ZoneOffset.UTC,
              "anna",
              "bench",
              Source.TYPED,
              each.certainty,
              "said",
              null,
              each.statement));
    }
    return entries;
  }
}
