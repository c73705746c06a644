package tallyback.model;

/**
 * Where an amount is. Every entry moves an amount from one account to another and never makes or
 * loses anything.
 */
public enum Account {
  /** Items on the machine. */
  MACHINE("machine"),
  /** Items off and kept. */
  TRAY("tray"),
  /** Items thrown away. */
  SCRAP("scrap"),
  /** New items on the shelf. */
  STOCK("stock"),
  /** Items or fluid nobody can find. */
  LOST("lost"),
  /** Fluid in the machine. */
  SYSTEM("system"),
  /** Fluid caught. */
  PAN("pan"),
  /** Fresh fluid. */
  CAN("can"),
  /** Fluid that left with a part. */
  OLD_PART("old part"),
  /** Fluid for the collection point. */
  WASTE("waste");

  private final String label;

  Account(String label) {
    this.label = label;
  }

  /** How it is called in text. */
  public String label() {
    return label;
  }
}
