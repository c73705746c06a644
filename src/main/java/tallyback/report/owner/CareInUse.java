package tallyback.report.owner;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tallyback.plan.Plan;
import tallyback.report.owner.OwnerPage.Line;

/**
 * What to mind in use, by what was worked on. Figures and waiting times stand in the maker's manual
 * and never here. Sources: scalding, 66 FR 29747 (NHTSA, a proposal); coolant, ATSDR ToxFAQs CAS
 * 107-21-1 and a US EPA leaflet on household waste; exhaust, NIOSH Alert 1996; the others are
 * common practice without a source.
 */
final class CareInUse {

  private static final String ALWAYS =
      "The maker's manual, local rules and licensed practice decide; this record does not stand in"
          + " for them.";

  /** A caution and the words by which the plan shows that it belongs here. */
  private record Care(Pattern when, String text) {
    static Care of(String when, String text) {
      return new Care(Pattern.compile("\\b(?:" + when + ")"), text);
    }
  }

  private static final List<Care> CARES =
      List.of(
          Care.of(
              "coolant|cooling|radiator|antifreeze",
              "Never open the cap of the cooling system while the engine is hot: it scalds. Read the"
                  + " level with the engine stopped and cold. Coolant is poisonous and tastes sweet:"
                  + " keep children and animals away from it."),
          Care.of(
              "belt|fan|pulley",
              "Keep hands, hair and clothes away from belt and fan while the engine runs, and run it"
                  + " only with its guards on."),
          Care.of(
              "brake|caliper",
              "Before the first move press the brake pedal until it is firm, and try the brake at"
                  + " walking pace."),
          Care.of(
              "wheel nut|wheel bolt",
              "Have wheel nuts looked at again after a short distance, as the maker says."),
          Care.of(
              "hydraulic",
              "Never feel for a leak of the hydraulics: oil under pressure goes through the skin. Go"
                  + " to hospital at once if it did."),
          Care.of(
              "battery|earth lead",
              "Keep sparks and flames away from the battery, and metal off its poles."),
          Care.of("fuel|petrol", "Let the engine cool before you fill in fuel. No flames."),
          Care.of(
              "engine|exhaust", "Run the engine only outside or with its exhaust led outside."));

  private CareInUse() {}

  /** What fits what this plan works on. */
  static List<Line> of(Plan plan) {
    String names =
        Stream.concat(Stream.of(plan.name()), plan.named().stream().map(Plan.Named::label))
            .map(name -> name.toLowerCase(Locale.ROOT))
            .collect(Collectors.joining("\n"));
    boolean onlyNames = plan.basis() == Plan.Basis.NAMES;
    List<Line> lines = new ArrayList<>();
    for (Care care : CARES) {
      if (!onlyNames && care.when().matcher(names).find()) {
        lines.add(new Line("", care.text()));
      }
    }
    lines.add(new Line("", ALWAYS));
    return lines;
  }
}
