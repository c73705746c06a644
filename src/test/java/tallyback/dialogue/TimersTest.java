package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.Reply.Status;
import tallyback.model.Amount;
import tallyback.model.Statement.TimerSet;
import tallyback.model.Statement.TimersCancelled;
import tallyback.model.Unit;

/** Reminders somebody asked for. */
class TimersTest {

  private final Talk talk = new Talk();

  private List<String> dueAt(int minutesAfterNine) {
    return talk.dialogue().remindersDue(Talk.NINE.plusSeconds(60L * minutesAfterNine));
  }

  @Test
  void aReminderIsNotedAndFallsDueOnce() {
    Reply reply = talk.sure("remind me in ten minutes");
    assertEquals(Status.NOTED, reply.status());
    assertEquals(new TimerSet(Amount.of("10", Unit.MINUTE), null, false), talk.last());
    assertEquals(List.of(), dueAt(10));
    assertEquals(List.of("reminder: ten minutes over"), dueAt(11));
    assertEquals(List.of(), dueAt(12));
  }

  @Test
  void itSaysWhatFor() {
    talk.sure("wake me in half an hour to check the level");
    assertEquals(new TimerSet(Amount.of("0.5", Unit.HOUR), null, true), talk.last());
    assertEquals(List.of("reminder: half an hour over, check the level"), dueAt(31));
    talk.sure("remind me in two minutes to check the radiator");
    assertEquals(List.of("reminder: two minutes over, check the radiator"), dueAt(4));
  }

  @Test
  void whatFellDueLongAgoSaysWhen() {
    talk.sure("remind me in two minutes");
    assertEquals(List.of("reminder: two minutes over since 09:03"), dueAt(20));
  }

  @Test
  void whereNobodyListensForItTheNextEntryTellsOfIt() {
    talk.sureOf("remind me in two minutes", "engine cold");
    assertEquals("reminder: two minutes over", talk.sure("battery off").reminder());
  }

  @Test
  void theRunningOnesAreListed() {
    assertEquals("no timer is running", talk.sure("what timers are running").say());
    talk.sureOf("remind me in ten minutes", "wake me in half an hour to check the level");
    Reply reply = talk.sure("what timers are running");
    assertEquals(Status.ANSWERED, reply.status());
    assertEquals(
        "ten minutes: eight minutes left. half an hour, check the level: twenty nine minutes left",
        reply.say());
    assertEquals(2, talk.noted.size());
  }

  @Test
  void theOnlyOneIsCancelled() {
    talk.sureOf("remind me in ten minutes", "cancel the timer");
    assertEquals(new TimersCancelled(), talk.last());
    assertEquals(List.of(), dueAt(30));
    assertEquals("no timer is running", talk.sure("cancel the timer").say());
  }

  @Test
  void ofSeveralNoneIsGuessed() {
    talk.sureOf("remind me in ten minutes", "remind me in twenty minutes");
    assertEquals(
        "several are running: say \"cancel all timers\"", talk.sure("cancel the timer").say());
    assertEquals(Status.NOTED, talk.sure("cancel all timers").status());
    assertEquals(List.of(), dueAt(30));
  }

  @Test
  void scratchThatTakesItBack() {
    talk.sureOf("remind me in ten minutes", "scratch that");
    assertEquals(List.of(), dueAt(30));
  }

  @Test
  void itOutlastsARestart() {
    talk.sureOf("remind me in ten minutes", "remind me in forty minutes");
    talk.startAgain();
    assertEquals(List.of("reminder: ten minutes over"), dueAt(11));
  }

  @Test
  void teensAndTensAreSaidApart() {
    talk.sure("remind me in fifteen minutes");
    assertEquals(List.of("reminder: fifteen minutes, one five over"), dueAt(16));
  }
}
