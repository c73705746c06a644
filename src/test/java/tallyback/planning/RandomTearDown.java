package tallyback.planning;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;

/** Tear-downs drawn at random: parts off with their bolts, some of it back on. */
public final class RandomTearDown {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private final List<Entry> entries = new ArrayList<>();

  private RandomTearDown() {}

  /**
   * A tear-down.
   *
   * @param names what can be named
   * @param random where chance comes from
   * @param parts how many parts come off, each with bolts of one size
   */
  public static List<Entry> of(Plan names, SplittableRandom random, int parts) {
    RandomTearDown job = new RandomTearDown();
    job.note(new Statement.JobOpened(names.name(), names.hash(), names.text()));
    List<Item> all =
        new ArrayList<>(
            names.items().stream()
                .filter(item -> !item.temporary() && item.count() == 1)
                .filter(item -> item.thing() == Thing.PART)
                .toList());
    List<Item> taken = new ArrayList<>();
    List<Integer> counts = new ArrayList<>();
    for (int number = 0; number < parts; number++) {
      Item part = all.remove(random.nextInt(all.size()));
      int count = 1 + random.nextInt(8);
      Amount head =
          new Amount(java.math.BigDecimal.valueOf(8 + random.nextInt(12)), Unit.MILLIMETRE);
      job.move(ItemMove.OFF, null, part.id(), Thing.BOLT, count, head);
      job.move(ItemMove.OFF, part.id(), null, null, null, null);
      taken.add(part);
      counts.add(count);
    }
    int back = random.nextInt(parts + 1);
    for (int number = parts - 1; number >= parts - back; number--) {
      job.move(ItemMove.ON, taken.get(number).id(), null, null, null, null);
      job.move(ItemMove.ON, null, taken.get(number).id(), Thing.BOLT, counts.get(number), null);
    }
    return job.entries;
  }

  private void move(
      ItemMove move,
      @Nullable String item,
      @Nullable String place,
      @Nullable Thing thing,
      @Nullable Integer count,
      @Nullable Amount head) {
    note(new ItemsMoved(move, item, thing, count, false, head, place, null));
  }

  private void note(Statement statement) {
    int seq = entries.size() + 1;
    entries.add(
        new Entry(
            "e" + seq,
            "job",
            seq,
            NINE.plusSeconds(30L * seq),
            NINE.plusSeconds(30L * seq),
            ZoneOffset.UTC,
            "mechanic",
            "bench",
            Source.TYPED,
            Certainty.CONFIRMED,
            "",
            null,
            statement));
  }
}
