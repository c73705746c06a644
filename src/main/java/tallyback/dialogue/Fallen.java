package tallyback.dialogue;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;

/**
 * Something was lost or dropped and nobody said where: it may lie in the machine. It is noted at
 * once and asked about; until that is answered it stands as lying nobody knows where. One thread.
 */
final class Fallen {

  private @Nullable Entry entry;

  /** Takes every entry as it is noted; the answer is awaited until the next entry. */
  void noted(Entry noted) {
    entry =
        noted.statement() instanceof ItemsMoved moved
                && moved.where() == null
                && (moved.move() == ItemMove.DROPPED || moved.move() == ItemMove.MISSING)
            ? noted
            : null;
  }

  /** True while nobody has said where it fell. */
  boolean isOpen() {
    return entry != null;
  }

  /** The entry with where it fell; empty when nothing is open. */
  Optional<Statement> at(FellWhere where) {
    Entry fallen = entry;
    return fallen != null && fallen.statement() instanceof ItemsMoved moved
        ? Optional.of(
            new Corrected(
                fallen.id(),
                new ItemsMoved(
                    ItemMove.DROPPED,
                    moved.item(),
                    moved.thing(),
                    moved.count(),
                    moved.lump(),
                    moved.headSize(),
                    moved.place(),
                    where)))
        : Optional.empty();
  }

  /** "Found it", said of what just fell, tells of as many as fell; anything else stays as it is. */
  Statement found(Statement said) {
    Entry fell = entry;
    boolean it =
        said instanceof ItemsMoved found
            && found.move() == ItemMove.FOUND
            && found.item() == null
            && found.thing() == null
            && found.count() == null;
    return it && fell != null && fell.statement() instanceof ItemsMoved moved
        ? new ItemsMoved(
            ItemMove.FOUND,
            moved.item(),
            moved.thing(),
            moved.count(),
            moved.lump(),
            moved.headSize(),
            moved.place(),
            null)
        : said;
  }
}
