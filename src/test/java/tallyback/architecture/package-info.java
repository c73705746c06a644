/** Holds the code to the architecture: who may use whom, and what the packed jar contains. */
@org.jspecify.annotations.NullMarked
package tallyback.architecture;
