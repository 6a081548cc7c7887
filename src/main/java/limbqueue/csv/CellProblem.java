package limbqueue.csv;

/**
 * What is wrong at one place of a table.
 *
 * @param line as a spreadsheet counts, the header being 1
 * @param column the name in the header; empty for the row as a whole
 * @param cell what stands there, shortened
 * @param what in words
 * @param todo what to do about it
 */
public record CellProblem(int line, String column, String cell, String what, String todo) {}
