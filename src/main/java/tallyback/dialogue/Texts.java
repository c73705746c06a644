package tallyback.dialogue;

import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Tightened;

/** What the dialogue says to the speaker. */
final class Texts {

  static final String PAUSED = "paused: say carry on first";
  static final String NOTHING_ASKED = "nothing was asked";
  static final String DROPPED = "dropped, nothing noted; say it again";

  private Texts() {}

  static String nothingToChange() {
    return "there is nothing before this that it could mean; say it in full";
  }

  static String question(OpenQuestion question) {
    if (question.doubtful()) {
      return "did you say \"" + question.words() + "\"? yes, no, or say it again";
    }
    String number =
        Amounts.of(question.statement()).map(Amount::value).map(Object::toString).orElse("");
    return number + " what? " + units(question.statement());
  }

  private static String units(Statement statement) {
    if (statement instanceof Tightened tightened && tightened.torque() != null) {
      return "newton metres, foot pounds or inch pounds";
    }
    if (statement instanceof FluidMoved) {
      return "litres, millilitres, or which pints, quarts, gallons or ounces";
    }
    if (!(statement instanceof Measured measured)) {
      return "say the unit";
    }
    return switch (measured.measure()) {
      case TEMPERATURE, STRENGTH -> "degrees celsius or fahrenheit";
      case PRESSURE -> "kilopascals, bar or p s i";
      case GAP, THICKNESS, LEVEL -> "millimetres, inches or thou";
      default -> "say the unit";
    };
  }
}
