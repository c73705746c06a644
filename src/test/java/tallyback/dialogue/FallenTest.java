package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Finding;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.reconcile.Reconciler;

/** What was dropped may lie in the machine: it is noted, and asked about. */
class FallenTest {

  private static final String WHERE = "on the floor, or in the machine?";

  private final Talk talk = new Talk();

  private List<String> kinds() throws IOException {
    Plan plan = PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    return Reconciler.reconcile(plan, talk.noted).findings().stream().map(Finding::kind).toList();
  }

  @Test
  void whatWasLostIsNotedAndAskedAbout() {
    talk.sure("five belly pan bolts off");
    Reply reply = talk.sure("lost one");
    assertEquals(Status.NOTED, reply.status());
    assertEquals(WHERE, reply.reminder());
    assertTrue(talk.dialogue().isWaitingForAnswer());
  }

  @Test
  void itFellIntoTheMachine() throws IOException {
    talk.sureOf("five belly pan bolts off", "dropped a belly pan bolt");
    Reply reply = talk.sure("in the machine");
    assertEquals(Status.NOTED, reply.status());
    Corrected now = (Corrected) talk.last();
    assertEquals("u2", now.target());
    ItemsMoved moved = (ItemsMoved) now.now();
    assertEquals(ItemMove.DROPPED, moved.move());
    assertEquals(FellWhere.MACHINE, moved.where());
    assertEquals("belly-pan-bolts", moved.item());
    assertEquals(1, moved.count());
    assertEquals("", reply.reminder());
    assertFalse(talk.dialogue().isWaitingForAnswer());
    assertTrue(kinds().contains("dropped-in-machine"), kinds().toString());
  }

  @Test
  void itLiesOnTheFloor() throws IOException {
    talk.sureOf("five belly pan bolts off", "lost one");
    talk.sure("it's on the floor");
    assertEquals(FellWhere.FLOOR, ((ItemsMoved) ((Corrected) talk.last()).now()).where());
    assertFalse(kinds().contains("dropped-in-machine"), kinds().toString());
  }

  @Test
  void itWasFound() throws IOException {
    talk.sureOf("five belly pan bolts off", "dropped a belly pan bolt");
    assertEquals(Status.NOTED, talk.sure("found it").status());
    assertEquals(ItemMove.FOUND, ((ItemsMoved) talk.last()).move());
    assertFalse(talk.dialogue().isWaitingForAnswer());
    assertFalse(kinds().contains("dropped-in-machine"), kinds().toString());
  }

  @Test
  void unansweredItStaysAFinding() throws IOException {
    talk.sureOf("five belly pan bolts off", "dropped a belly pan bolt", "engine cold");
    assertFalse(talk.dialogue().isWaitingForAnswer());
    assertTrue(kinds().contains("dropped-in-machine"), kinds().toString());
  }

  @Test
  void whereItFellMayBeSaidAtOnce() {
    talk.sure("five belly pan bolts off");
    assertEquals("", talk.sure("dropped one in the machine").reminder());
  }

  @Test
  void aDoubtfulAnswerIsAskedAbout() {
    talk.sureOf("five belly pan bolts off", "lost one");
    assertEquals(
        "did you say \"in the machine\"? yes, no, or say it again",
        talk.doubtful("in the machine").say());
    talk.sure("yes");
    assertEquals(FellWhere.MACHINE, ((ItemsMoved) ((Corrected) talk.last()).now()).where());
  }

  @Test
  void nobodyAskedWhere() {
    assertEquals("nothing was asked", talk.sure("in the machine").say());
  }
}
