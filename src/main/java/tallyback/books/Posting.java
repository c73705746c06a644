package tallyback.books;

import tallyback.model.Account;
import tallyback.model.Rational;

/**
 * A double entry: what leaves one account arrives in another, so that a move never makes or loses
 * anything.
 *
 * @param said the entry it stems from
 * @param from account it leaves
 * @param to account it arrives in
 * @param quantity how many items, or how many litres; more than 0
 */
public record Posting(Standing said, Account from, Account to, Rational quantity) {}
