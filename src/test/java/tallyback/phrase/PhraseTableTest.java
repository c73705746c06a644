package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.FellWhere;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.FluidMove;
import tallyback.model.Statement.FluidMoved;
import tallyback.model.Statement.ItemMove;
import tallyback.model.Statement.ItemsMoved;
import tallyback.model.Statement.Level;
import tallyback.model.Statement.MachineState;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.PartCondition;
import tallyback.model.Statement.PartFitted;
import tallyback.model.Statement.StateSaid;
import tallyback.model.Statement.StepMark;
import tallyback.model.Statement.StepMarked;
import tallyback.model.Statement.TemporaryMoved;
import tallyback.model.Statement.Thing;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.Trouble;
import tallyback.model.Statement.Warmth;
import tallyback.model.Unit;

/** What people say, and exactly what it means, on the demo job's plan. */
class PhraseTableTest {

  // ---- fluids

  @Test
  void drained() {
    means(
        fluid(FluidMove.OUT, "2.1", Unit.LITRE, "block-drain", "big-jug"),
        "drained two point one litres from the block plug into the big jug",
        "drained two point one litres out of the block plug into the big jug",
        "drained two point one litres into the big jug from the block plug",
        "drained out two point one litres out of the block plug in the big jug",
        "two point one litres out of the block plug into the big jug",
        "two point one litres from block plug into big jug",
        "that's two point one litres from the block plug into the big jug",
        "let out two point one litres from the right plug into the big jug",
        "drained 2.1 L from the block plug into the big jug",
        "drained 2.1 litres from the block plug into the big jug",
        "drained 2.1 liters from the block plug into the big jug",
        "Drained 2.1l from the block plug, into the big jug.",
        "drained two point one from the block plug into the big jug".replace("one", "one litres"));
  }

  @Test
  void drainedFromTheLeftPlug() {
    means(
        fluid(FluidMove.OUT, "2.6", Unit.LITRE, "radiator-drain", null),
        "two point six litres out of the left plug",
        "two point six litres from the radiator drain",
        "drained two point six litres from the left plug",
        "caught two point six litres from the left plug");
  }

  @Test
  void numbersKeepTheDecimalsThatWereSaid() {
    means(
        fluid(FluidMove.OUT, "2.10", Unit.LITRE, null, null),
        "drained two point one zero litres",
        "drained 2.10 L",
        "2.10 L out");
    means(
        fluid(FluidMove.OUT, "0.9", Unit.LITRE, null, null),
        "drained point nine litres",
        "drained oh point nine litres",
        "drained .9 L");
    means(
        fluid(FluidMove.OUT, "3.5", Unit.LITRE, null, null),
        "drained three and a half litres",
        "three and a half litres out",
        "drained 3 1/2 L",
        "drained 3½ litres");
    means(
        fluid(FluidMove.OUT, "0.5", Unit.LITRE, null, null),
        "drained half a litre",
        "half a litre out",
        "drained a half litre",
        "drained 1/2 litre");
    means(
        fluid(FluidMove.OUT, "0.25", Unit.LITRE, null, null),
        "drained a quarter of a litre",
        "drained a quarter litre");
    means(
        fluid(FluidMove.OUT, "0.75", Unit.LITRE, null, null),
        "drained three quarters of a litre",
        "drained 3/4 litre");
    means(
        fluid(FluidMove.OUT, "1.5", Unit.LITRE, null, null),
        "drained a litre and a half",
        "drained one and a half litres",
        "drained one litre and a half");
    means(
        fluid(FluidMove.OUT, "1", Unit.LITRE, null, null),
        "drained a litre",
        "drained one litre",
        "drained 1 L",
        "a litre out");
  }

  @Test
  void millilitres() {
    means(
        fluid(FluidMove.OUT, "950", Unit.MILLILITRE, null, null),
        "drained nine fifty mils",
        "drained nine hundred and fifty mils",
        "drained nine hundred fifty millilitres",
        "drained nine five zero mils",
        "nine fifty mils out",
        "nine fifty mils drained",
        "drained 950 ml",
        "drained 950 mL",
        "drained 950 mls",
        "drained 950 cc",
        "drained nine fifty c c");
    means(
        fluid(FluidMove.OUT, "2100", Unit.MILLILITRE, null, null),
        "drained twenty one hundred mils",
        "drained two thousand one hundred mils",
        "drained 2100 ml");
    means(
        fluid(FluidMove.OUT, "1200", Unit.MILLILITRE, null, null),
        "drained one thousand two hundred millilitres",
        "drained twelve hundred mils");
    means(
        fluid(FluidMove.OUT, "120", Unit.MILLILITRE, null, null),
        "drained a hundred and twenty mils",
        "drained one twenty mils",
        "drained one hundred twenty mils");
    means(
        fluid(FluidMove.OUT, "15", Unit.MILLILITRE, null, null),
        "drained fifteen mils",
        "drained one five mils");
  }

  @Test
  void gallonsQuartsAndPintsSaidInFull() {
    means(
        fluid(FluidMove.OUT, "2", Unit.US_QUART, null, null),
        "drained two u s quarts",
        "drained two american quarts",
        "drained 2 US qt");
    means(
        fluid(FluidMove.OUT, "3", Unit.IMPERIAL_PINT, null, null),
        "drained three imperial pints",
        "drained 3 imp pt");
    means(
        fluid(FluidMove.OUT, "1.5", Unit.US_GALLON, null, null),
        "drained one and a half u s gallons",
        "drained 1.5 US gal");
    means(
        fluid(FluidMove.OUT, "12", Unit.US_FLUID_OUNCE, null, null),
        "drained twelve u s fluid ounces",
        "drained 12 US fl oz");
    means(
        fluid(FluidMove.OUT, "1.5", Unit.KILOGRAM, null, null),
        "drained one point five kilos",
        "drained one and a half kilograms",
        "drained 1.5 kg");
    means(
        fluid(FluidMove.OUT, "450", Unit.GRAM, null, null),
        "drained four hundred fifty grams",
        "drained 450 g");
  }

  @Test
  void filled() {
    FluidMoved four =
        new FluidMoved(
            FluidMove.IN,
            Amount.of("4", Unit.LITRE),
            false,
            "coolant",
            FluidForm.PREMIX,
            "cooling",
            "filler-neck",
            null,
            null,
            null);
    means(
        four,
        "poured in four litres of coolant premix into the filler neck",
        "filled four litres of coolant premix into the filler neck",
        "filled with four litres of coolant premix into the filler neck",
        "four litres of coolant premix into the filler neck",
        "added four litres coolant premix to the filler neck");
    means(
        new FluidMoved(
            FluidMove.IN,
            Amount.of("0.5", Unit.LITRE),
            false,
            "water",
            null,
            null,
            null,
            "small-jug",
            null,
            null),
        "topped up with half a litre of distilled water from the small jug",
        "added half a litre of distilled water from the small jug");
    means(
        new FluidMoved(
            FluidMove.IN,
            Amount.of("2", Unit.LITRE),
            false,
            null,
            FluidForm.CONCENTRATE,
            null,
            null,
            null,
            null,
            null),
        "poured in two litres of concentrate",
        "two litres of concentrate in",
        "two litres concentrate added");
    means(
        new FluidMoved(
            FluidMove.IN, null, false, "coolant", null, "cooling", null, null, null, null),
        "filled the cooling system with coolant",
        "topped up the cooling system with antifreeze");
  }

  @Test
  void fluidElsewhere() {
    means(
        fluid(FluidMove.LOST, "200", Unit.MILLILITRE, null, null),
        "spilled two hundred mils",
        "two hundred mils lost",
        "two hundred mils on the floor",
        "spilt 200 ml");
    means(
        fluid(FluidMove.PUT_BACK, "1.5", Unit.LITRE, null, null),
        "poured back one point five litres",
        "one and a half litres put back",
        "one point five litres back in");
    means(
        fluid(FluidMove.TO_WASTE, "2", Unit.LITRE, null, null),
        "two litres to waste",
        "tipped out two litres");
    means(
        fluid(FluidMove.BLED_OUT, "300", Unit.MILLILITRE, null, null),
        "bled out three hundred mils",
        "three hundred mils bled out",
        "pushed out three hundred mils");
    means(
        fluid(FluidMove.LEFT_IN_PART, "100", Unit.MILLILITRE, "coolant-pump", null),
        "a hundred mils left in the water pump");
    means(
        new FluidMoved(FluidMove.LOST, null, false, "coolant", null, null, null, null, null, null),
        "spilled some coolant");
    means(
        new FluidMoved(
            FluidMove.OUT, null, false, null, null, "cooling", "block-drain", null, null, null),
        "drained the block plug",
        "drained the right plug");
  }

  @Test
  void aboutWarmthAndTemperatureOfFluids() {
    means(
        new FluidMoved(
            FluidMove.OUT,
            Amount.of("2", Unit.LITRE),
            true,
            null,
            null,
            null,
            null,
            null,
            null,
            null),
        "drained about two litres",
        "drained roughly two litres",
        "about two litres out");
    means(
        new FluidMoved(
            FluidMove.OUT,
            Amount.of("2", Unit.LITRE),
            false,
            null,
            null,
            null,
            null,
            null,
            Warmth.COLD,
            null),
        "drained two litres cold",
        "two litres out cold");
    means(
        new FluidMoved(
            FluidMove.OUT,
            Amount.of("2", Unit.LITRE),
            false,
            null,
            null,
            null,
            null,
            null,
            null,
            Amount.of("40", Unit.CELSIUS)),
        "drained two litres at forty degrees celsius",
        "drained 2 L at 40 °C");
  }

  @Test
  void unitLeftOpenIsNeverGuessed() {
    asks("drained two point one", "2.1", Unit.LITRE);
    asks("drained two point one from the block plug", "2.1", Unit.LITRE);
    asks("two point one out of the block plug", "2.1", Unit.LITRE);
    asks("two out of the block plug", "2", Unit.LITRE);
    asks("drained nine fifty from the left plug", "950", Unit.LITRE);
    asks("drained two quarts", "2", Unit.US_QUART);
    asks("drained a quart and a half", "1.5", Unit.US_QUART);
    asks("drained two pints", "2", Unit.US_PINT);
    asks("drained eight ounces", "8", Unit.US_FLUID_OUNCE);
    asks("torqued the outlet nuts to nineteen", "19", Unit.NEWTON_METRE);
    asks("torqued the outlet nuts to nineteen newtons", "19", Unit.NEWTON_METRE);
    asks("torqued the outlet nuts to eighty pounds", "80", Unit.POUND_FOOT);
    asks("outlet nuts to nineteen", "19", Unit.NEWTON_METRE);
    asks("temperature eighty six degrees", "86", Unit.CELSIUS);
    asks("temperature eighty six", "86", Unit.CELSIUS);
    asks("belt guard gap thirty mils", "30", Unit.MILLIMETRE);
    asks("pressure fifteen pounds", "15", Unit.PSI);
    asks("mileage twelve thousand three hundred", "12300", Unit.KILOMETRE);
  }

  @Test
  void wrenchOrVesselNamedGivesItsUnitOnlyWhereTheValueIsOnItsScale() {
    means(
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            null,
            null,
            null,
            false,
            Amount.of("19", Unit.NEWTON_METRE),
            null,
            null,
            "small-wrench",
            null,
            null),
        "torqued the outlet nuts to nineteen with the small wrench",
        "torqued the outlet nuts to nineteen with the small spanner");
    asks("torqued the outlet nuts to nine hundred with the small wrench", "900", Unit.NEWTON_METRE);
    asks("drained nine fifty into the big jug", "950", Unit.LITRE);
  }

  @Test
  void followOns() {
    means(
        new Statement.MoreOfSame(
            Amount.of("950", Unit.MILLILITRE), null, null, Statement.OTHER_SIDE),
        "and nine fifty mils from the other side",
        "and 950 ml from the other side");
    means(
        new Statement.SameAgain(null, Statement.LEFT_SIDE),
        "same again on the left",
        "and same again on the left side");
    means(new Statement.SameAgain(null, Statement.RIGHT_SIDE), "same again on the right hand side");
    means(new Statement.SameAgain(null, null), "same again");
    means(new Statement.SameAgain("elbow-nuts", null), "same again on the elbow nuts");
    means(
        new Statement.MoreOfSame(null, 2, null, "belly-pan"),
        "and two more off the belly pan",
        "and two more bolts off the belly pan");
    means(new Statement.MoreOfSame(null, 1, null, null), "and another one");
  }

  // ---- items

  @Test
  void boltsOffByHeadSize() {
    means(
        items(ItemMove.OFF, null, null, 5, "10", "belly-pan"),
        "five tens off the belly pan",
        "that's five tens off the belly pan",
        "took five tens off the belly pan",
        "5 10s off the belly pan",
        "five tens from the belly pan");
    means(
        items(ItemMove.OFF, null, Thing.BOLT, 6, "10", "splash-guard"),
        "six bolts ten millimetre out of the splash guard",
        "six bolts, ten millimetre, out of the splash guard",
        "six ten millimetre bolts out of the splash guard",
        "six ten mil bolts off the splash guard",
        "six bolts tens off the splash guard",
        "six bolts all tens from the splash guard",
        "took six bolts ten millimetre out of the splash guard",
        "6 bolts 10 mm off the splash guard",
        "6 bolts, 10mm, off the splash guard");
    means(
        items(ItemMove.OFF, null, Thing.BOLT, 4, "13", "tank-straps"),
        "tank straps four bolts all thirteens",
        "tank straps, four bolts, all thirteens",
        "tank straps four bolts thirteens off",
        "tank straps four bolts thirteen millimetre out");
    means(
        items(ItemMove.OFF, null, null, 4, "19", "front-frame"),
        "four nineteens off the front frame");
    means(
        items(ItemMove.OFF, null, null, 2, "21", "front-frame"),
        "two twenty ones off the front frame");
    means(
        items(ItemMove.OFF, null, Thing.BOLT, 12, null, "radiator"),
        "a dozen bolts off the radiator",
        "twelve bolts off the radiator",
        "12 bolts off the radiator");
    means(
        items(ItemMove.OFF, null, Thing.BOLT, 2, null, "radiator"),
        "a couple of bolts off the radiator");
    means(
        items(ItemMove.OFF, null, Thing.BOLT, 1, null, "radiator"),
        "a bolt off the radiator",
        "one bolt off the radiator");
    means(items(ItemMove.OFF, null, null, 6, null, "splash-guard"), "six off the splash guard");
    means(
        items(ItemMove.OFF, null, Thing.BOLT, 24, null, "radiator"),
        "twenty four bolts off the radiator");
  }

  @Test
  void inchHeadsAreExact() {
    means(
        inch(4, Thing.BOLT, "0.5625"),
        "four nine sixteenths bolts off the radiator",
        "four nine sixteenths inch bolts off the radiator",
        "four 9/16 bolts off the radiator",
        "4 bolts 9/16 in off the radiator",
        "four bolts nine sixteenths off the radiator");
    means(
        inch(4, Thing.BOLT, "0.5"),
        "four half inch bolts off the radiator",
        "four 1/2 inch bolts off the radiator");
    means(inch(4, Thing.BOLT, "0.4375"), "four seven sixteenths bolts off the radiator");
    means(inch(4, Thing.BOLT, "0.375"), "four three eighths bolts off the radiator");
    means(inch(4, Thing.BOLT, "0.6875"), "four eleven sixteenths bolts off the radiator");
    means(
        inch(4, Thing.BOLT, "0.75"),
        "four three quarters bolts off the radiator",
        "four 3/4 inch bolts off the radiator");
    means(inch(4, null, "0.5625"), "four nine sixteenths off the radiator");
  }

  @Test
  void partsAndGroupsOff() {
    means(
        item(ItemMove.OFF, "belt-guard", null, false),
        "belt guard off",
        "the belt guard off",
        "that's the belt guard off",
        "belt guard is off",
        "belt guard's off",
        "took off the belt guard",
        "took the belt guard off",
        "removed the belt guard",
        "belt guard removed",
        "got the belt guard off",
        "old belt guard off");
    means(item(ItemMove.OFF, "drive-belt", null, false), "drive belt off", "fan belt off");
    means(
        item(ItemMove.OFF, "pump-bolts", null, false),
        "pump bolts out",
        "undid the pump bolts",
        "unbolted the pump bolts");
    means(
        item(ItemMove.OFF, "sensor-connector", null, false),
        "sensor connector unplugged",
        "unplugged the sensor connector",
        "disconnected the sensor connector",
        "sensor connector disconnected");
    means(
        item(ItemMove.OFF, "splash-guard-bolts", 6, false),
        "six splash guard bolts off",
        "six of the splash guard bolts off",
        "took off six splash guard bolts",
        "splash guard bolts six off",
        "splash guard bolts six of them out");
    means(item(ItemMove.OFF, "pump-bolts", 1, false), "one pump bolt off", "1 pump bolt out");
  }

  @Test
  void thingsBackOn() {
    means(
        item(ItemMove.ON, "belt-guard", null, false),
        "belt guard back on",
        "belt guard on",
        "that's the belt guard back on",
        "put the belt guard back on",
        "put back the belt guard",
        "refitted the belt guard",
        "belt guard refitted",
        "installed the belt guard",
        "belt guard is back on");
    means(
        item(ItemMove.ON, "pump-bolts", null, true),
        "all pump bolts back on",
        "all the pump bolts back in",
        "put back all pump bolts");
    means(item(ItemMove.ON, "pump-bolts", 5, true), "all five pump bolts back in");
    means(
        item(ItemMove.ON, "sensor-connector", null, false),
        "sensor connector plugged in",
        "plugged in the sensor connector",
        "sensor connector reconnected");
    means(
        new ItemsMoved(ItemMove.ON, null, null, 6, true, null, null, null),
        "all six back",
        "all six back on",
        "all six in");
    means(new ItemsMoved(ItemMove.ON, null, null, null, true, null, null, null), "all back on");
    means(
        new ItemsMoved(ItemMove.ON, null, Thing.BOLT, null, true, null, null, null),
        "all bolts back in",
        "all the bolts back in");
    means(
        items(ItemMove.ON, null, Thing.BOLT, 4, null, "belly-pan"),
        "four bolts back on the belly pan",
        "put four bolts back on the belly pan",
        "four bolts into the belly pan");
  }

  @Test
  void missingDroppedFoundSheared() {
    means(
        new ItemsMoved(ItemMove.MISSING, null, null, 1, false, null, null, null),
        "lost one",
        "one missing",
        "one lost",
        "can't find one",
        "cannot find one");
    means(
        new ItemsMoved(ItemMove.MISSING, null, Thing.BOLT, 1, false, null, null, null),
        "one bolt missing",
        "lost a bolt",
        "lost one bolt");
    means(
        item(ItemMove.MISSING, "pulley-bolts", 2, false),
        "two pulley bolts missing",
        "lost two pulley bolts",
        "lost two of the pulley bolts");
    means(
        new ItemsMoved(ItemMove.DROPPED, null, null, 1, false, null, null, FellWhere.MACHINE),
        "dropped one in the machine",
        "dropped one into the machine",
        "dropped one in the engine");
    means(
        new ItemsMoved(ItemMove.DROPPED, null, null, 1, false, null, null, FellWhere.FLOOR),
        "dropped one on the floor");
    means(
        new ItemsMoved(ItemMove.DROPPED, null, null, 1, false, null, null, null),
        "dropped one",
        "one dropped");
    means(
        new ItemsMoved(ItemMove.DROPPED, null, Thing.BOLT, 1, false, null, null, FellWhere.MACHINE),
        "dropped a bolt in the machine",
        "one bolt fell into the machine");
    means(new ItemsMoved(ItemMove.FOUND, null, null, null, false, null, null, null), "found it");
    means(
        new ItemsMoved(ItemMove.FOUND, null, Thing.BOLT, 1, false, null, null, null),
        "found one bolt",
        "found a bolt");
    means(
        new ItemsMoved(ItemMove.SHEARED, null, Thing.CLIP, 1, false, null, null, null),
        "one clip broke",
        "one clip broken",
        "broke one clip",
        "one clip snapped");
    means(
        item(ItemMove.SHEARED, "pump-bolts", 1, false),
        "one pump bolt sheared",
        "one pump bolt sheared off",
        "sheared one pump bolt",
        "one pump bolt snapped");
    means(
        item(ItemMove.SCRAPPED, "pump-gasket", null, false),
        "pump gasket scrapped",
        "scrapped the pump gasket",
        "threw away the pump gasket",
        "pump gasket in the bin");
  }

  @Test
  void newOldAndCarriedOver() {
    means(
        new ItemsMoved(ItemMove.NEW_ON, null, Thing.BOLT, null, false, null, null, null),
        "putting new bolts in",
        "new bolts in",
        "fitted new bolts");
    means(
        new ItemsMoved(ItemMove.NEW_ON, null, Thing.BOLT, 5, false, null, null, null),
        "five new bolts in",
        "putting five new bolts in");
    means(
        item(ItemMove.NEW_ON, "bypass-clamps", null, false),
        "new bypass clamps on",
        "renewed the bypass clamps");
    means(item(ItemMove.NEW_ON, "bypass-clamps", 2, false), "two new bypass clamps on");
    means(
        new PartFitted("pump-gasket", PartCondition.NEW),
        "new pump gasket in",
        "new pump gasket fitted",
        "fitted a new pump gasket",
        "renewed the pump gasket",
        "replaced the pump gasket",
        "the new pump gasket is in");
    means(
        new PartFitted("coolant-pump", PartCondition.NEW),
        "new coolant pump on",
        "new water pump on",
        "replaced the water pump");
    means(
        new PartFitted("pump-gasket", PartCondition.OLD),
        "old pump gasket back in",
        "old pump gasket back on",
        "reused the pump gasket");
    means(
        new PartFitted("sensor-bracket", PartCondition.CARRIED_OVER),
        "sensor bracket carried over",
        "sensor bracket moved over",
        "carried over the sensor bracket");
  }

  @Test
  void temporaryThings() {
    means(
        new TemporaryMoved(true, "locking-pin", null),
        "locking pin in",
        "put the locking pin in",
        "locking pin is in",
        "locking pin fitted");
    means(
        new TemporaryMoved(false, "locking-pin", null),
        "locking pin out",
        "took out the locking pin",
        "took the locking pin out",
        "locking pin removed");
    means(new TemporaryMoved(true, "blanking-plug", null), "blanking plug in", "blanking cap on");
  }

  @Test
  void alignment() {
    means(
        new Statement.Aligned("thermostat", Amount.of("0", Unit.DEGREE)),
        "jiggle pin at twelve o'clock",
        "thermostat at twelve o'clock",
        "jiggle pin pointing up",
        "jiggle pin straight up",
        "jiggle pin at 12 o'clock");
    means(
        new Statement.Aligned("thermostat", Amount.of("90", Unit.DEGREE)),
        "jiggle pin at three o'clock");
    means(
        new Statement.Aligned("thermostat", Amount.of("180", Unit.DEGREE)),
        "jiggle pin pointing down",
        "jiggle pin at six o'clock");
    means(
        new Statement.Aligned("thermostat", Amount.of("15", Unit.DEGREE)),
        "thermostat at fifteen degrees");
    means(new Statement.Aligned("thermostat", null), "thermostat lined up");
  }

  // ---- tightness

  @Test
  void torqued() {
    means(
        tight("outlet-nuts", null, "19", Unit.NEWTON_METRE, null, "small-wrench"),
        "torqued the outlet nuts to nineteen newton metres with the small wrench",
        "outlet nuts to nineteen newton metres with the small wrench",
        "outlet nuts torqued to nineteen newton metres using the small wrench",
        "torqued the outlet nuts to one nine newton metres with the small wrench",
        "torqued up the outlet nuts to nineteen newton metres with the small spanner",
        "outlet nuts nineteen newton metres with the small wrench",
        "torqued the outlet nuts to 19 Nm with the small wrench",
        "torqued the outlet nuts to 19 N·m with the small wrench",
        "torqued the outlet nuts to 19 N m with the small wrench",
        "torqued the outlet nuts to 19 N-m with the small wrench",
        "torqued the outlet nuts to 19 newton meters with the small wrench",
        "tightened the outlet nuts to nineteen newton metres with the small wrench");
    means(
        tight("elbow-nuts", 4, "18", Unit.NEWTON_METRE, null, null),
        "elbow nuts four of to eighteen newton metres",
        "elbow nuts, four of, to eighteen newton metres",
        "elbow nuts four of them to eighteen newton metres",
        "four elbow nuts to eighteen newton metres");
    means(
        tight("pump-bolts", null, "10", Unit.NEWTON_METRE, 1, null),
        "pump bolts first pass ten newton metres",
        "pump bolts first pass to ten newton metres",
        "pump bolts to ten newton metres first pass",
        "torqued the pump bolts first pass to ten newton metres",
        "pump bolts pass one to ten newton metres",
        "pump bolts 1st pass 10 Nm");
    means(
        tight("pump-bolts", null, "24", Unit.NEWTON_METRE, 2, null),
        "pump bolts second pass twenty four newton metres");
    means(
        tight("outlet-nuts", null, "14", Unit.POUND_FOOT, null, null),
        "outlet nuts to fourteen foot pounds",
        "outlet nuts to fourteen pound feet",
        "outlet nuts to fourteen pounds feet",
        "outlet nuts to 14 ft-lb",
        "outlet nuts to 14 lbf·ft",
        "outlet nuts to 14 ft lb",
        "outlet nuts to 14 lb-ft",
        "outlet nuts to 14 ftlb");
    means(
        tight("outlet-nuts", null, "168", Unit.POUND_INCH, null, null),
        "outlet nuts to one hundred sixty eight inch pounds",
        "outlet nuts to one sixty eight inch pounds",
        "outlet nuts to 168 in-lb",
        "outlet nuts to 168 lbf·in");
    means(
        tight("outlet-nuts", null, "1.9", Unit.KILOGRAM_METRE, null, null),
        "outlet nuts to one point nine kilogram metres",
        "outlet nuts to 1.9 kgf·m");
    means(
        tight("outlet-nuts", null, "190", Unit.KILOGRAM_CENTIMETRE, null, null),
        "outlet nuts to one ninety kilogram centimetres",
        "outlet nuts to 190 kgf·cm");
    means(
        tight("outlet-nuts", null, "19.5", Unit.NEWTON_METRE, null, null),
        "outlet nuts to nineteen point five newton metres");
    means(
        tight("outlet-nuts", null, "210", Unit.NEWTON_METRE, null, null),
        "outlet nuts to two one zero newton metres",
        "outlet nuts to two ten newton metres",
        "outlet nuts to two hundred and ten newton metres");
    means(
        tight("outlet-nuts", 1, "19", Unit.NEWTON_METRE, null, null),
        "one outlet nut to nineteen newton metres");
    means(
        tight(null, null, "19", Unit.NEWTON_METRE, null, null),
        "torqued to nineteen newton metres");
  }

  @Test
  void torquedAllAndByPlaceAndByNoun() {
    Amount nineteen = Amount.of("19", Unit.NEWTON_METRE);
    means(
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            null,
            null,
            null,
            true,
            nineteen,
            null,
            null,
            null,
            null,
            null),
        "all outlet nuts to nineteen newton metres",
        "all the outlet nuts to nineteen newton metres",
        "outlet nuts all of them to nineteen newton metres");
    means(
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            null,
            null,
            2,
            false,
            nineteen,
            null,
            null,
            null,
            null,
            null),
        "both outlet nuts to nineteen newton metres",
        "all two outlet nuts to nineteen newton metres");
    means(
        new Tightened(
            TightnessState.TORQUED,
            null,
            "belly-pan",
            null,
            null,
            false,
            nineteen,
            null,
            null,
            null,
            null,
            null),
        "belly pan to nineteen newton metres");
    means(
        new Tightened(
            TightnessState.TORQUED,
            null,
            null,
            Thing.BOLT,
            4,
            false,
            nineteen,
            null,
            null,
            null,
            null,
            null),
        "four bolts to nineteen newton metres",
        "torqued four bolts to nineteen newton metres");
    means(
        new Tightened(
            TightnessState.TORQUED,
            null,
            null,
            null,
            4,
            false,
            nineteen,
            null,
            null,
            null,
            null,
            null),
        "all four to nineteen newton metres",
        "four of them to nineteen newton metres");
    means(
        new Tightened(
            TightnessState.TORQUED,
            "outlet-nuts",
            null,
            null,
            null,
            false,
            null,
            null,
            null,
            "small-wrench",
            null,
            null),
        "torqued the outlet nuts with the small wrench",
        "outlet nuts torqued with the small wrench");
  }

  @Test
  void angles() {
    Amount ninety = Amount.of("90", Unit.DEGREE);
    means(
        new Tightened(
            TightnessState.ANGLE_DONE,
            "pivot-bolt",
            null,
            null,
            null,
            false,
            Amount.of("40", Unit.NEWTON_METRE),
            null,
            ninety,
            null,
            null,
            null),
        "pivot bolt to forty newton metres plus ninety degrees",
        "pivot bolt to forty newton metres then ninety degrees",
        "torqued the pivot bolt to forty newton metres plus a quarter turn");
    means(
        new Tightened(
            TightnessState.ANGLE_DONE,
            "pivot-bolt",
            null,
            null,
            null,
            false,
            null,
            null,
            ninety,
            null,
            null,
            null),
        "pivot bolt turned ninety degrees",
        "pivot bolt turned a quarter turn");
  }

  @Test
  void otherTightness() {
    means(
        state(TightnessState.HAND_TIGHT, "pump-bolts"),
        "pump bolts hand tight",
        "pump bolts finger tight",
        "hand tightened the pump bolts",
        "pump bolts are hand tight");
    means(
        state(TightnessState.STARTED, "pump-bolts"),
        "pump bolts started by hand",
        "pump bolts hand started");
    means(
        state(TightnessState.BY_FEEL, "pump-bolts"),
        "pump bolts tight by feel",
        "pump bolts tight",
        "tightened the pump bolts");
    means(
        state(TightnessState.CHECKED, "pump-bolts"),
        "checked the pump bolts",
        "pump bolts checked",
        "rechecked the pump bolts");
    means(
        state(TightnessState.TORQUED, "pump-bolts"),
        "torqued the pump bolts",
        "pump bolts torqued");
  }

  // ---- readings

  @Test
  void levels() {
    means(
        new Measured(Measure.LEVEL, null, Level.AT, "cold-mark", null, Warmth.COLD, null),
        "level's at the cold mark cold",
        "level at the cold mark, cold");
    means(
        new Measured(Measure.LEVEL, null, Level.AT, "cold-mark", null, null, null),
        "level at the cold mark",
        "level's at cold mark",
        "level is at the cold mark",
        "level on the cold mark");
    means(
        new Measured(Measure.LEVEL, null, Level.BELOW, "hot-mark", "cooling", Warmth.HOT, null),
        "coolant level below the hot mark hot",
        "cooling system level is under the hot mark hot");
    means(
        new Measured(Measure.LEVEL, null, Level.ABOVE, "cold-mark", null, null, null),
        "level above the cold mark",
        "level over the cold mark");
    means(
        new Measured(Measure.LEVEL, null, Level.BELOW, null, null, null, null),
        "level's low",
        "level down");
  }

  @Test
  void values() {
    means(
        reading(Measure.TEMPERATURE, "86", Unit.CELSIUS, null, null),
        "temperature eighty six degrees celsius",
        "temperature is eighty six celsius",
        "temperature 86 °C",
        "temperature 86°C",
        "temperature eight six".replace("eight six", "eighty six degrees centigrade"));
    means(
        reading(Measure.TEMPERATURE, "187", Unit.FAHRENHEIT, "cooling", "thermometer"),
        "coolant temperature one hundred eighty seven degrees fahrenheit on the thermometer",
        "coolant temperature 187 °F on the thermometer");
    means(
        reading(Measure.TEMPERATURE, "-5", Unit.CELSIUS, null, null),
        "temperature minus five degrees celsius",
        "temperature -5 °C");
    means(
        reading(Measure.PRESSURE, "1.2", Unit.BAR, null, "pressure-tester"),
        "pressure one point two bar on the pressure tester",
        "pressure holding at one point two bar with the pressure tester");
    means(
        reading(Measure.PRESSURE, "15", Unit.PSI, "cooling", null),
        "cooling system pressure fifteen p s i",
        "cooling system pressure 15 psi",
        "cooling system pressure fifteen pounds per square inch");
    means(
        reading(Measure.PRESSURE, "100", Unit.KILOPASCAL, null, null),
        "pressure a hundred kilopascals",
        "pressure 100 kPa");
    means(
        reading(Measure.GAP, "0.8", Unit.MILLIMETRE, "drive-belt", null),
        "drive belt gap zero point eight millimetres",
        "fan belt gap 0.8 mm");
    means(
        reading(Measure.GAP, "35", Unit.THOU, "drive-belt", null),
        "drive belt gap thirty five thou");
    means(
        reading(Measure.GAP, "0.375", Unit.INCH, "drive-belt", null),
        "drive belt gap three eighths inch",
        "drive belt gap 3/8 in");
    means(
        reading(Measure.THICKNESS, "4.5", Unit.MILLIMETRE, "pump-gasket", null),
        "pump gasket thickness four point five millimetres");
    means(
        reading(Measure.VOLTAGE, "12.6", Unit.VOLT, "battery", null),
        "battery voltage twelve point six",
        "battery voltage twelve point six volts",
        "battery voltage 12.6 V");
    means(
        reading(Measure.CURRENT, "8", Unit.AMPERE, null, null),
        "current eight amps",
        "current 8 A");
    means(
        reading(Measure.RESISTANCE, "2200", Unit.OHM, "temperature-sensor", null),
        "temperature sensor resistance twenty two hundred ohms",
        "temperature sensor resistance 2200 Ω");
    means(
        reading(Measure.SPEED, "850", Unit.RPM, null, null),
        "idling at eight fifty",
        "idle at eight hundred and fifty revs",
        "engine speed eight hundred fifty r p m",
        "engine speed 850 rpm",
        "running at eight fifty revs");
    means(
        reading(Measure.HOURS, "1240.5", Unit.HOUR, null, null),
        "hour meter twelve hundred and forty point five",
        "hour meter one thousand two hundred forty point five hours",
        "hour meter 1240.5 h");
    means(
        reading(Measure.DISTANCE, "84300", Unit.MILE, null, null),
        "odometer eighty four thousand three hundred miles",
        "mileage 84300 miles");
    means(
        reading(Measure.STRENGTH, "-30", Unit.CELSIUS, null, null),
        "strength minus thirty degrees celsius",
        "protected down to minus thirty celsius");
    means(
        reading(Measure.STRENGTH, "50", Unit.PERCENT, null, "refractometer"),
        "mixture fifty percent on the refractometer",
        "strength 50 % on the refractometer");
  }

  @Test
  void threeFactsInOneBreath() {
    Meaning meaning = read("running, eighty six degrees, heater on full");
    assertEquals(
        new Measured(
            Measure.TEMPERATURE, Amount.of("86", Unit.UNSAID), null, null, null, null, null),
        meaning.statement());
    assertEquals(List.of(Unit.CELSIUS, Unit.FAHRENHEIT), meaning.unitChoices());
    assertEquals(
        List.of(
            new StateSaid(MachineState.RUNNING, null), new StateSaid(MachineState.HEATER_ON, null)),
        meaning.further());
  }

  // ---- states, steps, people, trouble

  @Test
  void states() {
    said(MachineState.COLD, "engine cold", "engine is cold", "machine cold", "the engine is cold");
    said(MachineState.HOT, "engine hot");
    said(
        MachineState.BATTERY_OFF,
        "battery off",
        "battery disconnected",
        "battery is off",
        "battery earth lead off",
        "ground lead off");
    said(MachineState.BATTERY_ON, "battery back on", "battery connected", "earth lead back on");
    said(MachineState.ON_STANDS, "on stands", "up on stands", "machine on stands");
    said(MachineState.ON_WHEELS, "back on its wheels", "off the stands");
    said(MachineState.CHOCKED, "wheels chocked", "wheels are chocked");
    said(MachineState.KEY_OUT, "key out", "key is out", "key's out");
    said(MachineState.IMPLEMENT_DOWN, "implement down", "implement lowered");
    said(MachineState.PRESSURE_OFF, "pressure off", "pressure let off", "pressure released");
    said(MachineState.CAP_OPEN, "cap off", "radiator cap open", "radiator cap off");
    said(MachineState.CAP_CLOSED, "cap back on", "radiator cap closed");
    said(MachineState.GUARDS_ON, "guards on", "all guards back on", "guards are on");
    said(MachineState.GUARDS_OFF, "guards off");
    said(MachineState.TURNED_BY_HAND, "turned over by hand", "turns freely");
    said(MachineState.RUNNING, "engine running", "it's running", "engine is running");
    said(MachineState.STOPPED, "engine stopped", "engine off");
    said(MachineState.HEATER_ON, "heater on full", "heater full");
    said(MachineState.NO_LEAK, "no leaks", "no leaks anywhere", "no leak");
    said(MachineState.LEAK, "there's a leak");
    said(MachineState.LAMPS_OUT, "warning lights out", "no warning lamps");
    said(MachineState.TOOLS_OUT, "tools out", "tools and rags out", "bay clear");
    said(MachineState.BLED, "fully bled", "no more bubbles");
    said(MachineState.EYES_COVERED, "goggles on", "eye protection on");
    said(MachineState.VENTILATED, "doors open", "extraction on");
    means(
        new StateSaid(MachineState.LEAK, "block-plug"),
        "leak at the block plug",
        "leaking from the block plug",
        "a leak at the block plug");
    means(
        new StateSaid(MachineState.LEAK, "top-hose"),
        "leak at the top hose",
        "top hose leaking",
        "top hose is leaking");
    means(new StateSaid(MachineState.NO_LEAK, "top-hose"), "no leak at the top hose");
  }

  @Test
  void batteryLeadThatIsAnItemIsMovedToo() {
    Meaning meaning = read("earth lead off");
    assertEquals(new StateSaid(MachineState.BATTERY_OFF, null), meaning.statement());
    assertEquals(List.of(item(ItemMove.OFF, "earth-lead", null, false)), meaning.further());
  }

  @Test
  void steps() {
    means(
        new StepMarked("move-parts", StepMark.DONE),
        "step nine done",
        "that's step nine done",
        "step 9 done",
        "step number nine done",
        "move parts done",
        "done with step nine");
    means(
        new StepMarked("drain", StepMark.DONE),
        "drain coolant done",
        "done draining",
        "draining done",
        "finished draining",
        "draining finished");
    means(
        new StepMarked("strip-belt", StepMark.STARTED),
        "starting strip belt",
        "starting the strip belt",
        "strip belt started",
        "started strip belt");
    means(
        new StepMarked("pressure-test", StepMark.SKIPPED),
        "skipped the pressure test",
        "pressure test skipped",
        "skipping the pressure test");
    means(
        new StepMarked("pressure-test", StepMark.REDONE),
        "pressure test done again",
        "pressure test redone",
        "redid the pressure test");
  }

  @Test
  void peopleTroublePhotosMemos() {
    means(new Statement.SpeakerIs("anna"), "anna speaking");
    means(
        new Statement.SecondCheck("anna", "pump-bolts"),
        "anna checked the pump bolts",
        "pump bolts checked by anna");
    means(new Statement.SecondCheck(null, "pump-bolts"), "second person checked the pump bolts");
    means(
        new Statement.ProblemSeen(Trouble.CRACKED, "belt-guard"),
        "belt guard cracked",
        "belt guard is cracked");
    means(
        new Statement.ProblemSeen(Trouble.WORN, "drive-belt"),
        "drive belt worn",
        "fan belt is worn out");
    means(new Statement.ProblemSeen(Trouble.STRIPPED, "pump-bolts"), "pump bolts stripped");
    means(
        new Statement.ProblemSeen(Trouble.SEIZED, "pivot-bolt"),
        "pivot bolt seized",
        "pivot bolt is stuck");
    means(
        new Statement.ProblemSeen(Trouble.CORRODED, "radiator"),
        "radiator corroded",
        "radiator is rusted");
    means(
        new Statement.ProblemSeen(Trouble.BROKEN, "belt-guard"),
        "belt guard broken",
        "belt guard broke");
    means(new Statement.ProblemSeen(Trouble.LEAKING, "coolant-pump"), "water pump was leaking");
    means(
        new Statement.ProblemSeen(Trouble.UNSPECIFIED, "belt-guard"),
        "problem with the belt guard");
    means(new Statement.ProblemSeen(Trouble.UNSPECIFIED, null), "found a problem");
    means(
        new Statement.PhotoMarked("coolant-pump"),
        "photo of the coolant pump",
        "picture of the water pump");
    means(new Statement.PhotoMarked(null), "photo taken", "took a photo");
    means(new Statement.Memo(), "voice memo", "make a memo", "memo");
  }

  @Test
  void breaksAndRepairs() {
    means(new Statement.Paused(), "taking a break", "pause the job", "stopping for lunch", "pause");
    means(new Statement.Resumed(), "carry on", "back to work", "resume");
    means(
        new Statement.LeftForNight(),
        "leaving for the night",
        "leaving it for the night",
        "done for today",
        "that's it for today");
    means(new Statement.JobClosed(), "the job is finished");
    means(
        new Statement.NotUnderstoodSettled(),
        "never mind what you missed",
        "forget what you missed");
    means(new Statement.Undone(null), "scratch that", "strike that", "undo that", "undo");
    means(
        new Statement.ChangeLast(Amount.of("16", Unit.UNSAID), null, null),
        "scratch that sixteen not sixty",
        "scratch that, 16 not 60",
        "correction sixteen",
        "make that sixteen",
        "correction it was sixteen");
    means(
        new Statement.ChangeLast(Amount.of("16", Unit.NEWTON_METRE), null, null),
        "correction sixteen newton metres",
        "make that 16 Nm",
        "scratch that sixteen newton metres not sixty");
    means(
        new Statement.ChangeLast(null, null, "block-drain"),
        "scratch that from the block plug",
        "make that from the right plug");
    means(
        new Statement.ChangeLast(null, "elbow-nuts", null),
        "make that on the elbow nuts",
        "correction on the elbow nuts");
    means(
        new Statement.ChangeNamed(
            "belly-pan", Amount.of("5", Unit.UNSAID), Amount.of("6", Unit.UNSAID)),
        "belly pan was five not six",
        "the belly pan was 5, not 6");
    means(
        new Statement.ChangeNamed(
            "outlet-nuts", Amount.of("16", Unit.NEWTON_METRE), Amount.of("60", Unit.UNSAID)),
        "outlet nuts were sixteen newton metres not sixty",
        "the outlet nuts were 16 Nm, not 60");
    means(
        new Statement.ChangeNamed("block-plug", Amount.of("2.1", Unit.LITRE), null),
        "the block plug was two point one litres",
        "block plug was 2.1 L");
    means(
        new Statement.TimerSet(Amount.of("10", Unit.MINUTE), null, false),
        "remind me in ten minutes",
        "wake me in 10 minutes");
    means(
        new Statement.TimerSet(Amount.of("0.5", Unit.HOUR), null, true),
        "wake me in half an hour to check the level");
    means(
        new Statement.TimerSet(Amount.of("1", Unit.HOUR), "radiator", false),
        "remind me in an hour to check the radiator");
    means(
        new Statement.LookAgain(2, Statement.Span.WEEKS, "outlet-nuts", false),
        "look again at the outlet nuts in two weeks",
        "look again in 2 weeks at the outlet nuts");
    means(
        new Statement.LookAgain(1, Statement.Span.DAYS, null, true),
        "look again at the level tomorrow",
        "look again tomorrow morning at the level",
        "look again at the level in a day");
    means(
        new Statement.LookAgain(48, Statement.Span.HOURS, null, false),
        "look again in forty eight hours",
        "look again in 48 hours");
    means(new Statement.LookAgain(12, Statement.Span.MONTHS, null, false), "look again in a year");
    means(new Statement.FilmMark(null), "camera mark");
    means(new Statement.FilmMark(1), "camera mark one", "camera mark 1");
    means(new Statement.FilmMark(13), "camera mark thirteen");
    means(new Statement.CancelTimer(false), "cancel the timer");
    means(new Statement.CancelTimer(true), "cancel all timers");
    means(new Statement.UndoNamed("belly-pan"), "scratch the belly pan", "strike the belly pan");
    means(new Statement.OtherReading(), "the other reading");
    means(
        new Statement.WasEarlier(Amount.of("20", Unit.MINUTE)),
        "that was twenty minutes ago",
        "that was about twenty minutes ago",
        "that was 20 min ago");
    means(new Statement.WasEarlier(Amount.of("0.5", Unit.HOUR)), "that was half an hour ago");
    means(
        new Statement.PhotoMarked("coolant-pump"),
        "forgot to say photo of the coolant pump",
        "I forgot to say photo of the coolant pump");
  }

  @Test
  void agoAfterAnEntry() {
    Meaning meaning = read("belt guard off twenty minutes ago");
    assertEquals(item(ItemMove.OFF, "belt-guard", null, false), meaning.statement());
    assertEquals(Amount.of("20", Unit.MINUTE), meaning.ago());
    assertEquals(
        Amount.of("0.5", Unit.HOUR),
        read("drained two litres from the block plug half an hour ago").ago());
    assertEquals(Amount.of("1", Unit.HOUR), read("step nine done an hour ago").ago());
  }

  @Test
  void answers() {
    answer(
        new Statement.Answer(true, null, null),
        "yes",
        "yeah",
        "that's right",
        "okay",
        "understood",
        "ok",
        "got it");
    answer(new Statement.Answer(false, null, null), "no", "nope", "that's wrong");
    answer(new Statement.Fell(FellWhere.FLOOR), "on the floor", "it's on the floor");
    answer(
        new Statement.Fell(FellWhere.MACHINE),
        "in the machine",
        "it fell into the engine",
        "inside the machine");
    answer(new Statement.Answer(null, null, Unit.NEWTON_METRE), "newton metres", "Nm");
    answer(new Statement.Answer(null, null, Unit.MILLILITRE), "millilitres", "ml");
    answer(
        new Statement.Answer(null, Amount.of("16", Unit.UNSAID), null),
        "sixteen",
        "it's sixteen",
        "one six",
        "16",
        "sixteen not sixty");
    answer(
        new Statement.Answer(false, Amount.of("16", Unit.NEWTON_METRE), null),
        "no sixteen newton metres",
        "no, it's 16 Nm");
    answer(new Statement.Answer(null, Amount.of("0.5", Unit.LITRE), null), "half a litre");
    answer(new Statement.Undone(null), "scratch that", "never mind", "cancel that");
    answer(
        new Statement.Named("block-drain"),
        "the block plug",
        "from the block plug",
        "no the block plug".replace("no ", ""));
    answer(new Statement.Named(Statement.OTHER_SIDE), "the other one");
    answer(new Statement.Named("small-wrench"), "the small wrench", "small spanner");
    answer(new Statement.PutOff(false), "skip it");
    answer(new Statement.PutOff(true), "ask me later");
    answer(new Statement.Chosen(1), "the first one");
    answer(new Statement.Chosen(2), "the second one");
    assertEquals(
        List.of(Unit.MILLILITRE, Unit.MILLIMETRE, Unit.THOU),
        DemoGrammar.GRAMMAR.readAnswer("mils").orElseThrow().unitChoices());
    assertTrue(
        DemoGrammar.GRAMMAR
            .readAnswer("imperial")
            .orElseThrow()
            .unitChoices()
            .contains(Unit.IMPERIAL_QUART));
  }

  // ---- the table's own words

  private static Meaning read(String phrase) {
    return DemoGrammar.GRAMMAR
        .read(phrase)
        .orElseThrow(() -> new AssertionError(phrase + ": " + DemoGrammar.GRAMMAR.whyNot(phrase)));
  }

  private static void means(Statement expected, String... phrases) {
    assertAll(
        Arrays.stream(phrases)
            .<Executable>map(
                phrase -> () -> assertEquals(expected, read(phrase).statement(), phrase)));
  }

  private static void answer(Statement expected, String... phrases) {
    assertAll(
        Arrays.stream(phrases)
            .<Executable>map(
                phrase ->
                    () ->
                        assertEquals(
                            expected,
                            DemoGrammar.GRAMMAR
                                .readAnswer(phrase)
                                .map(Meaning::statement)
                                .orElse(null),
                            phrase)));
  }

  private static void said(MachineState state, String... phrases) {
    means(new StateSaid(state, null), phrases);
  }

  private static void asks(String phrase, String value, Unit firstChoice) {
    Meaning meaning = read(phrase);
    Amount amount =
        Stream.of(meaning.statement())
            .map(
                statement ->
                    statement instanceof FluidMoved fluid
                        ? fluid.amount()
                        : statement instanceof Tightened tight
                            ? tight.torque()
                            : ((Measured) statement).amount())
            .findFirst()
            .orElseThrow();
    assertEquals(Amount.of(value, Unit.UNSAID), amount, phrase);
    assertEquals(firstChoice, meaning.unitChoices().get(0), phrase);
  }

  private static FluidMoved fluid(
      FluidMove move, String value, Unit unit, @Nullable String place, @Nullable String vessel) {
    String system = place != null && place.endsWith("drain") ? "cooling" : null;
    return new FluidMoved(
        move, Amount.of(value, unit), false, null, null, system, place, vessel, null, null);
  }

  private static ItemsMoved items(
      ItemMove move,
      @Nullable String item,
      @Nullable Thing thing,
      @Nullable Integer count,
      @Nullable String head,
      @Nullable String place) {
    Amount size = head == null ? null : Amount.of(head, Unit.MILLIMETRE);
    return new ItemsMoved(move, item, thing, count, false, size, place, null);
  }

  private static ItemsMoved inch(int count, @Nullable Thing thing, String head) {
    return new ItemsMoved(
        ItemMove.OFF, null, thing, count, false, Amount.of(head, Unit.INCH), "radiator", null);
  }

  private static ItemsMoved item(
      ItemMove move, String item, @Nullable Integer count, boolean lump) {
    return new ItemsMoved(move, item, null, count, lump, null, null, null);
  }

  private static Tightened tight(
      @Nullable String item,
      @Nullable Integer count,
      String value,
      Unit unit,
      @Nullable Integer pass,
      @Nullable String wrench) {
    return new Tightened(
        TightnessState.TORQUED,
        item,
        null,
        null,
        count,
        false,
        Amount.of(value, unit),
        pass,
        null,
        wrench,
        null,
        null);
  }

  private static Tightened state(TightnessState state, String item) {
    return new Tightened(state, item, null, null, null, false, null, null, null, null, null, null);
  }

  private static Measured reading(
      Measure measure, String value, Unit unit, @Nullable String subject, @Nullable String gauge) {
    return new Measured(measure, Amount.of(value, unit), null, null, subject, null, gauge);
  }
}
