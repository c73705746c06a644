package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tallyback.phrase.Question.FluidTopic;
import tallyback.phrase.Question.ItemTopic;
import tallyback.phrase.Question.OfFluid;
import tallyback.phrase.Question.OfItem;
import tallyback.phrase.Question.OfJob;
import tallyback.phrase.Question.OfListening;
import tallyback.phrase.Question.OfSpeaker;
import tallyback.phrase.Question.OfVoice;
import tallyback.phrase.Question.ReadBackLast;

/** What people ask, and exactly which question it is, on the demo job's plan. */
class QuestionTableTest {

  private static void asks(Question question, String... phrases) {
    for (String phrase : phrases) {
      assertEquals(Optional.of(question), DemoGrammar.GRAMMAR.readQuestion(phrase), phrase);
      assertTrue(DemoGrammar.GRAMMAR.read(phrase).isEmpty(), phrase + " is no entry");
      assertTrue(DemoGrammar.GRAMMAR.readAnswer(phrase).isEmpty(), phrase + " is no answer");
    }
  }

  @Test
  void mayItBeStarted() {
    asks(
        OfJob.MAY_START,
        "can I start it",
        "can I start it up",
        "Can I start it?",
        "may I start it",
        "can it be started");
    asks(OfJob.MAY_WORK, "can it go to work");
    asks(OfJob.MAY_HAND_OVER, "can I hand it over");
  }

  @Test
  void whatIsNextAndWhatIsLeft() {
    asks(OfJob.NEXT, "what's next", "what is next", "what comes next", "What’s next?");
    asks(OfJob.WHERE_WAS_I, "where was I", "where were we");
    asks(OfJob.LEFT, "what's left", "what is left", "what's left to do");
    asks(OfJob.IN_THE_TRAY, "what's in the tray", "what have I still got in the tray");
    asks(OfJob.NOT_TIGHT, "what isn't tight yet", "what isn't tight", "what's not tight yet");
    asks(OfJob.NOT_SAID, "what haven't I said", "what have I not said yet");
    asks(OfJob.CAUTIONS, "what may go wrong here", "what can go wrong");
    asks(
        OfJob.HOW_LONG,
        "how long",
        "how long has it taken",
        "how long did it take",
        "how long should it take");
    asks(OfJob.CAN_SAY, "what can I say");
    asks(OfJob.TIMERS, "what timers are running");
    asks(OfListening.TO_EVERYTHING, "listen to everything");
    asks(OfListening.AFTER_THE_WORD, "wait for the word");
    asks(OfListening.WHILE_HELD, "only when held");
  }

  @Test
  void whoseVoiceIsHeard() {
    asks(new OfSpeaker(null), "who is speaking", "who's speaking");
    assertTrue(DemoGrammar.GRAMMAR.readQuestion("anna is speaking").isEmpty(), "nobody was taught");
    EntryGrammar grammar = EntryGrammar.of(DemoGrammar.PLAN, List.of("anna", "max"));
    for (String phrase : List.of("anna is speaking", "speaking is anna")) {
      assertEquals(Optional.of(new OfSpeaker("anna")), grammar.readQuestion(phrase));
      assertTrue(grammar.read(phrase).isEmpty(), phrase + " is no entry");
    }
    assertEquals(Optional.of(new OfSpeaker("max")), grammar.readQuestion("Max is speaking."));
    assertEquals(
        Optional.of(new OfSpeaker(OfSpeaker.ANYBODY)), grammar.readQuestion("anybody is speaking"));
    assertTrue(grammar.read("anna speaking").isPresent(), "as before, an entry");
  }

  @Test
  void whatThePlanSaysOfAnItem() {
    asks(
        new OfItem(ItemTopic.TORQUE, "outlet-nuts"),
        "what's the torque of the outlet nuts",
        "what is the torque on the outlet nuts",
        "torque for outlet nuts",
        "torque of the outlet nut");
    asks(
        new OfItem(ItemTopic.SIZE, "pump-bolts"),
        "what's the size of the pump bolts",
        "size of the pump bolts");
    asks(new OfItem(ItemTopic.ORDER, "pump-bolts"), "what's the order of the pump bolts");
    asks(new OfItem(ItemTopic.WAY_ROUND, "thermostat"), "which way round does the thermostat go");
    asks(new OfItem(ItemTopic.WAY_ROUND, null), "which way round does it go");
    asks(new OfItem(ItemTopic.PLACE, "coolant-pump"), "where does the water pump go");
    asks(new OfItem(ItemTopic.PLACE, "long-bolts"), "where do the long bolts go");
    asks(new OfItem(ItemTopic.PLACE, null), "where does it go");
  }

  @Test
  void howMuchFluid() {
    asks(new OfFluid(FluidTopic.OUT, null), "how much is out", "how much came out");
    asks(new OfFluid(FluidTopic.OUT, "coolant"), "how much coolant is out");
    asks(new OfFluid(FluidTopic.IN, null), "how much is in", "how much went in");
    asks(new OfFluid(FluidTopic.SHORT, null), "how much is short", "how much is missing");
    asks(new OfFluid(FluidTopic.POUR, null), "how much do I pour", "how much do I pour in");
    asks(new OfFluid(FluidTopic.POUR, "coolant"), "how much antifreeze do I pour in");
  }

  @Test
  void whatWasSaid() {
    asks(new ReadBackLast(1), "read back the last", "read back the last one");
    asks(new ReadBackLast(3), "read back the last three", "read back the last 3");
    asks(OfVoice.SAY_AGAIN, "say again", "say that again", "repeat that");
    asks(OfVoice.LOUDER, "louder");
    asks(OfVoice.QUIETER, "quieter");
  }

  @Test
  void whatOnlySoundsLikeAQuestionIsAnEntry() {
    for (String entry :
        List.of(
            "torqued the outlet nuts",
            "same again",
            "can't find it",
            "six of the tank straps back on",
            "put back the bonnet")) {
      assertTrue(DemoGrammar.GRAMMAR.readQuestion(entry).isEmpty(), entry);
      assertTrue(DemoGrammar.GRAMMAR.read(entry).isPresent(), entry);
    }
  }

  @Test
  void twoQuestionsThatAskTheSameAreNoRivals() {
    assertEquals(
        DemoGrammar.GRAMMAR.sense(List.of("what's", "next")),
        DemoGrammar.GRAMMAR.sense(List.of("what", "is", "next")));
  }
}
