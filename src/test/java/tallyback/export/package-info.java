@org.jspecify.annotations.NullMarked
package tallyback.export;
