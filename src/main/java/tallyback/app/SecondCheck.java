package tallyback.app;

import java.util.List;
import tallyback.speech.SecondFailed;
import tallyback.speech.program.ProgramRecognisers;

/** Tries a second recogniser as it would be used. */
public final class SecondCheck {

  private SecondCheck() {}

  /**
   * Starts it, has it listen to next to nothing, and ends it.
   *
   * @param command the program and its arguments
   * @return what is wrong with it and what to do; empty when it answers
   */
  public static String faultOf(String command) {
    try {
      ProgramRecognisers.open(command, List.of(List.of("bolts"))).close();
      return "";
    } catch (SecondFailed e) {
      return String.valueOf(e.getMessage());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return "it was broken off";
    }
  }
}
