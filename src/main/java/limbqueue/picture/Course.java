package limbqueue.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The course of a line on the picture. The browser takes the same steps, see {@code frontend/lq-arteries.js}. */
record Course(List<Point> points) {

    private static final int STEPS = 4;

    /** A point, and the direction of the line there as a vector of length 1. */
    record Point(double x, double y, double dx, double dy) {

        Point aside(double distance) {
            return new Point(x - dy * distance, y + dx * distance, dx, dy);
        }
    }

    Course {
        points = List.copyOf(points);
    }

    /** The smooth line through these waypoints: a Catmull-Rom spline, cut into short straight pieces. */
    static Course through(List<List<Double>> waypoints) {
        var smooth = new ArrayList<double[]>();
        var last = waypoints.size() - 1;
        for (var i = 0; i < last; i++) {
            var before = waypoints.get(Math.max(0, i - 1));
            var from = waypoints.get(i);
            var to = waypoints.get(i + 1);
            var after = waypoints.get(Math.min(last, i + 2));
            for (var step = 0; step < STEPS; step++) {
                var t = (double) step / STEPS;
                smooth.add(new double[] {
                    spline(before.get(0), from.get(0), to.get(0), after.get(0), t),
                    spline(before.get(1), from.get(1), to.get(1), after.get(1), t)
                });
            }
        }
        smooth.add(new double[] {waypoints.get(last).get(0), waypoints.get(last).get(1)});
        return directed(smooth);
    }

    private static double spline(double before, double from, double to, double after, double t) {
        return 0.5
                * (2 * from
                        + (to - before) * t
                        + (2 * before - 5 * from + 4 * to - after) * t * t
                        + (3 * from - before - 3 * to + after) * t * t * t);
    }

    private static Course directed(List<double[]> line) {
        var points = new ArrayList<Point>();
        for (var i = 0; i < line.size(); i++) {
            var from = line.get(Math.max(0, i - 1));
            var to = line.get(Math.min(line.size() - 1, i + 1));
            var length = Math.sqrt((to[0] - from[0]) * (to[0] - from[0]) + (to[1] - from[1]) * (to[1] - from[1]));
            points.add(
                    new Point(line.get(i)[0], line.get(i)[1], (to[0] - from[0]) / length, (to[1] - from[1]) / length));
        }
        return new Course(points);
    }

    /** The mirror image on a picture of this width. */
    Course mirrored(double width) {
        return new Course(points.stream()
                .map(point -> new Point(width - point.x(), point.y(), -point.dx(), point.dy()))
                .toList());
    }

    double length() {
        var length = 0.0;
        for (var i = 1; i < points.size(); i++) {
            length += distance(points.get(i - 1), points.get(i));
        }
        return length;
    }

    private static double distance(Point one, Point other) {
        return Math.sqrt((other.x() - one.x()) * (other.x() - one.x()) + (other.y() - one.y()) * (other.y() - one.y()));
    }

    /** @param share of the way, 0 at its beginning and 1 at its end */
    Point at(double share) {
        var rest = share * length();
        for (var i = 1; i < points.size(); i++) {
            var from = points.get(i - 1);
            var to = points.get(i);
            var piece = distance(from, to);
            if (rest <= piece || i == points.size() - 1) {
                var t = Math.min(1, rest / piece);
                return new Point(
                        from.x() + (to.x() - from.x()) * t,
                        from.y() + (to.y() - from.y()) * t,
                        (to.x() - from.x()) / piece,
                        (to.y() - from.y()) / piece);
            }
            rest -= piece;
        }
        return points.getFirst();
    }

    /** The part between two shares of the way. */
    Course part(double from, double to) {
        var total = length();
        var part = new ArrayList<Point>();
        part.add(at(from));
        var walked = 0.0;
        for (var i = 1; i < points.size() - 1; i++) {
            walked += distance(points.get(i - 1), points.get(i));
            if (walked > from * total && walked < to * total) {
                part.add(points.get(i));
            }
        }
        part.add(at(to));
        return new Course(part);
    }

    /** Points at about this distance from each other, the two ends included. */
    List<Point> spaced(double from, double to, double spacing) {
        var pieces = (int) Math.max(1, Math.round((to - from) * length() / spacing));
        var spaced = new ArrayList<Point>();
        for (var i = 0; i <= pieces; i++) {
            spaced.add(at(from + (to - from) * i / pieces));
        }
        return spaced;
    }

    /** As the data of an SVG path. */
    String path() {
        return path(points);
    }

    static String path(List<Point> points) {
        return "M" + points.stream().map(Course::pair).collect(Collectors.joining(" L"));
    }

    static String pair(Point point) {
        return number(point.x()) + " " + number(point.y());
    }

    /** With at most one decimal, as the browser writes it too. */
    static String number(double value) {
        var tenths = Math.round(value * 10);
        return tenths % 10 == 0 ? String.valueOf(tenths / 10) : String.valueOf(tenths / 10.0);
    }
}
