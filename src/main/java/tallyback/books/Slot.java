package tallyback.books;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.JobOpened;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.NotUnderstoodSettled;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.Undone;

/**
 * What is known of one entry while edits are applied. Long jobs have many, so what few entries need
 * is only made when it is needed. Used by one thread.
 */
final class Slot {

  final Entry entry;

  /** Its place by number, from 0. */
  final int place;

  /** True once a later confirmed correction has settled this unconfirmed one. */
  boolean settled;

  /** The unconfirmed edit that casts doubt on it, or null. */
  @Nullable Entry doubtedBy;

  /** The confirmed correction that holds now, or null. */
  @Nullable Entry correctedBy;

  /** The confirmed change of its time that holds now, or null. */
  @Nullable Entry retimedBy;

  /** What this undo withdrew, or null. */
  @Nullable Slot withdrew;

  /** The undos it hangs together with, or null. */
  @Nullable UndoChain chain;

  /** Its place in the chain, from 0. */
  int placeInChain;

  /** True when it was in a chain that was dissolved. */
  boolean alone;

  /** The undo that withdraws it when it is in no chain; null while it stands. */
  @Nullable Entry withdrawnBy;

  /** The entry first said that this edit finally changes, or null. */
  @Nullable Slot root;

  Statement statement;
  Certainty certainty;
  Instant happenedAt;
  private List<String> evidence;
  private List<Slot> openCorrections = List.of();

  Slot(Entry entry, int place) {
    this.entry = entry;
    this.place = place;
    this.statement = told(entry);
    this.certainty = entry.certainty();
    this.happenedAt = entry.happenedAt();
    this.evidence = List.of(entry.id());
  }

  /** What was added later counts as what it is, if it is something that could have been said. */
  private static Statement told(Entry entry) {
    Statement said = entry.said();
    boolean changesOthers =
        said instanceof Undone
            || said instanceof Corrected
            || said instanceof Retimed
            || said instanceof JobOpened;
    return changesOthers || !said.notable() ? entry.statement() : said;
  }

  boolean isWithdrawn() {
    return chain == null ? withdrawnBy != null : chain.withdraws(this);
  }

  /** What later entries made of it. */
  Fate fate() {
    Entry undo = chain == null ? withdrawnBy : chain.undoOf(this);
    return new Fate(undo, correctedBy, retimedBy, doubtedBy, happenedAt);
  }

  boolean withdrawableByBareUndo() {
    return !(statement instanceof Undone)
        && !(statement instanceof NotUnderstood)
        && !(statement instanceof NotUnderstoodSettled settled && settled.by() != null)
        && !(entry.statement() instanceof JobOpened);
  }

  boolean edits() {
    return statement instanceof Undone
        || entry.statement() instanceof Corrected
        || statement instanceof Retimed;
  }

  void seenIn(Entry edit) {
    if (evidence.size() == 1) {
      evidence = new ArrayList<>(evidence);
    }
    evidence.add(edit.id());
  }

  void addOpenCorrection(Slot correction) {
    if (openCorrections.isEmpty()) {
      openCorrections = new ArrayList<>();
    }
    openCorrections.add(correction);
  }

  void settleOpenCorrections() {
    openCorrections.forEach(open -> open.settled = true);
    openCorrections = List.of();
  }

  Standing standing(Statement now) {
    Certainty sure = doubtedBy != null ? Certainty.UNCONFIRMED : certainty;
    boolean asNoted =
        now.equals(entry.statement())
            && sure == entry.certainty()
            && happenedAt.equals(entry.happenedAt());
    return new Standing(asNoted ? entry : edited(now, sure), evidence);
  }

  private Entry edited(Statement now, Certainty sure) {
    return new Entry(
        entry.id(),
        entry.job(),
        entry.seq(),
        happenedAt,
        entry.recordedAt(),
        entry.zone(),
        entry.actor(),
        entry.device(),
        entry.source(),
        sure,
        entry.words(),
        entry.clip(),
        now,
        entry.heard());
  }
}
