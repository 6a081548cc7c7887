package limbqueue.command;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Supplier;

/**
 * Does pieces of work on every processor and hands on what comes of them in the order in which they were given. Only a few
 * are under way at a time, so that any number may be given. A handful of work is done at once, without other threads.
 */
final class InOrder<T> implements AutoCloseable {

    /** Takes what comes of the work. */
    interface Taker<T> {
        void take(T result) throws Console.CannotWriteException;
    }

    private static final int BATCH = 32;
    private static final int PROCESSORS = Runtime.getRuntime().availableProcessors();
    private static final int BATCHES_AT_A_TIME = 4 * PROCESSORS;

    private final Taker<T> taker;
    private final ExecutorService workers = Executors.newFixedThreadPool(
            PROCESSORS, Thread.ofPlatform().daemon().name("work-", 1).factory());
    private final Queue<Future<List<T>>> underWay = new ArrayDeque<>();
    private List<Supplier<T>> batch = new ArrayList<>(BATCH);

    InOrder(Taker<T> taker) {
        this.taker = taker;
    }

    void give(Supplier<T> work) throws Console.CannotWriteException {
        batch.add(work);
        if (batch.size() == BATCH) {
            var full = batch;
            batch = new ArrayList<>(BATCH);
            underWay.add(workers.submit(() -> done(full)));
            while (!underWay.isEmpty()
                    && (underWay.size() >= BATCHES_AT_A_TIME
                            || underWay.element().isDone())) {
                takeFirst();
            }
        }
    }

    /** Does what is left, and hands it on. */
    void finish() throws Console.CannotWriteException {
        while (!underWay.isEmpty()) {
            takeFirst();
        }
        var rest = batch;
        batch = new ArrayList<>(BATCH);
        for (var result : done(rest)) {
            taker.take(result);
        }
    }

    private static <T> List<T> done(List<Supplier<T>> batch) {
        var results = new ArrayList<T>(batch.size());
        for (var work : batch) {
            results.add(work.get());
        }
        return results;
    }

    private void takeFirst() throws Console.CannotWriteException {
        try {
            for (var result : underWay.remove().get()) {
                taker.take(result);
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted while triage was under way", interrupted);
        } catch (ExecutionException failed) {
            throw new IllegalStateException("a referral could not be worked on", failed.getCause());
        }
    }

    /** Gives up what is not done yet. */
    @Override
    public void close() {
        workers.shutdownNow();
    }
}
