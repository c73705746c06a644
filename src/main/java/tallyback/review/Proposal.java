package tallyback.review;

import java.time.Instant;
import java.util.List;
import tallyback.model.Statement;

/**
 * What an act would note, and what it would change. Nothing is noted yet.
 *
 * @param pieces the entries, in their order
 * @param doubt why it can hardly be so, as a sentence; empty when nothing speaks against it
 * @param change the job before and after
 */
public record Proposal(List<Piece> pieces, String doubt, Change change) {

  /** Stands in a statement for the id of the piece before, which is known when that is noted. */
  public static final String PIECE_BEFORE = "@piece-before";

  /** Copies its list. */
  public Proposal {
    pieces = List.copyOf(pieces);
  }

  /**
   * One entry.
   *
   * @param words as typed; in the log in lower case, as all words
   * @param happenedAt when it happened
   * @param statement what it means
   */
  public record Piece(String words, Instant happenedAt, Statement statement) {

    /** The statement, once the piece before it has an id. */
    public Statement after(String idBefore) {
      return statement instanceof Statement.NotUnderstoodSettled settled
              && PIECE_BEFORE.equals(settled.by())
          ? new Statement.NotUnderstoodSettled(settled.target(), idBefore)
          : statement;
    }
  }
}
