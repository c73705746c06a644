/**
 * The books: entries become balances. One way in, {@link tallyback.books.Books#of}, in three steps:
 * undo and correction are applied ({@link tallyback.books.Standing} is what remains), each standing
 * entry moves an amount from one account to another ({@link tallyback.books.ItemAccount}, {@link
 * tallyback.books.FluidAccount}), and whatever could not be booked stays visible with its reason
 * ({@link tallyback.books.Remark}, or the {@code uncounted} lists of the accounts).
 *
 * <p>Everything is kept twice, once from confirmed entries only and once from all, so that an
 * unconfirmed entry may open a finding and never close one. Pure: no I/O, no clock.
 */
@org.jspecify.annotations.NullMarked
package tallyback.books;
