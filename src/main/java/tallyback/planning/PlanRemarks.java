package tallyback.planning;

import java.util.List;

/** Every remark that a plan drawn from a job may hold. English only. */
final class PlanRemarks {

  static final List<String> FROM_YOUR_MANUAL =
      List.of(
          "Items, counts, heads, places and order are as they were told. Torques, limits and amounts"
              + " belong to the maker",
          "and stand in your manual: put them in where it says so. What was done in the job is"
              + " only remarked.");

  static final String OPEN = "Could not be decided by what was told, please answer:";
  static final String MEMOS = "Memos:";
  static final String HEAD = "head: across flats, was not told";
  static final String TORQUE =
      "torque: {value, tolerance, tolerance-from}: from your manual, with its page";
  static final String CAPACITY = "capacity: from your manual, with its unit";
  static final String RENEW =
      "renew: true, if your manual asks for a new one each time; a new one went in";

  private PlanRemarks() {}

  static String drawnFrom(String job, String day, boolean withoutPlan, String plan) {
    return "Drawn from job "
        + job
        + (day.isEmpty() ? "" : " of " + day)
        + (withoutPlan ? ", which had no plan." : ", which had the plan \"" + plan + "\".");
  }

  static String openCount(String question) {
    return "count: OPEN. " + question;
  }

  static String openGroup(String question) {
    return "OPEN. " + question;
  }

  static String nameMissing(String label) {
    return "OPEN. What is it called? Put its name before \"" + label + "\".";
  }

  static String drained(String amounts) {
    return "share: " + amounts + " came out in this job";
  }

  static String told(String line) {
    return "told: " + line;
  }
}
