/*
 * One pass over all lists of the archive, row by row, in plain C: free stock of every thread from its batches and promises, then for
 * every list its missing threads, put-ups to buy and status, and for every design the best of its lists.
 *
 * archive-pass <columns> <answers> <passes>: reads the columns, makes one pass and then as many as asked for, writes the last one's
 * answers and prints how many milliseconds each took.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef struct {
  uint32_t lists, needs, threads, batches, promises, designs;
} Sizes;

typedef struct {
  uint32_t enough, ready, elsewhere, lots, held, put_up;
  uint8_t is_some_held, is_some_free;
} Stock;

typedef struct {
  uint32_t missing, put_ups, rank;
} Answer;

static FILE *columns;

static void *read_column(size_t count, size_t width) {
  void *column = malloc(count * width + 1);
  if (column == NULL || fread(column, width, count, columns) != count) {
    fprintf(stderr, "archive-pass: the columns end too soon\n");
    exit(1);
  }
  return column;
}

static double now_ms(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static uint64_t larger(uint64_t a, uint64_t b) { return a > b ? a : b; }
static uint64_t smaller(uint64_t a, uint64_t b) { return a < b ? a : b; }
static uint32_t clamped(uint64_t length) { return length > UINT32_MAX ? UINT32_MAX : (uint32_t)length; }

static Sizes sizes;
static uint32_t *offsets, *need, *first_list, *put_up, *batch_offsets, *batch_put_up, *whole, *part, *promise_offsets, *promised;
static uint16_t *need_thread;
static uint8_t *is_incomplete, *lots_matter, *is_asked, *is_some, *is_out;
static int32_t *lot;
static Stock *stock;
static Answer *answers, *best;

/* Batches of one lot have the same mark; one without a mark (-1) is a lot of its own. */
static void find_stock(void) {
  for (uint32_t t = 0; t < sizes.threads; t++) {
    uint64_t free_all = 0, owned_all = 0, best_lot = 0, best_marked = 0, best_owned = 0;
    uint8_t some_held = 0;
    uint64_t batch_free[16], batch_owned[16];
    uint32_t first = batch_offsets[t], count = batch_offsets[t + 1] - first;
    for (uint32_t i = 0; i < count; i++) {
      uint32_t b = first + i;
      batch_free[i] = batch_owned[i] = 0;
      if (!is_asked[b]) continue;
      uint64_t owned = (uint64_t)whole[b] * batch_put_up[b] + part[b], taken = 0;
      for (uint32_t p = promise_offsets[b]; p < promise_offsets[b + 1]; p++) taken += promised[p];
      if (is_some[b] && !is_out[b]) some_held = 1;
      batch_owned[i] = owned;
      batch_free[i] = is_out[b] ? 0 : owned - smaller(owned, taken);
      free_all += batch_free[i];
      owned_all += owned;
      uint64_t lot_free = batch_free[i], lot_owned = owned;
      if (lot[b] >= 0) {
        for (uint32_t j = 0; j < i; j++) {
          if (lot[first + j] != lot[b]) continue;
          lot_free += batch_free[j];
          lot_owned += batch_owned[j];
        }
        best_marked = larger(best_marked, lot_free);
      }
      best_lot = larger(best_lot, lot_free);
      best_owned = larger(best_owned, lot_owned);
    }
    uint64_t ready = lots_matter[t] ? best_lot : free_all;
    uint64_t elsewhere = some_held ? UINT32_MAX : larger(ready, lots_matter[t] ? best_owned : owned_all);
    stock[t] = (Stock){
      .enough = clamped(lots_matter[t] ? best_lot : larger(best_lot, smaller(free_all, put_up[t]))),
      .ready = clamped(ready),
      .elsewhere = clamped(elsewhere),
      .lots = clamped(lots_matter[t] ? larger(elsewhere, owned_all) : elsewhere),
      .held = clamped(lots_matter[t] ? best_marked : free_all),
      .put_up = put_up[t],
      .is_some_held = some_held,
      .is_some_free = free_all > 0,
    };
  }
}

static void answer_lists(void) {
  for (uint32_t list = 0; list < sizes.lists; list++) {
    uint32_t start = offsets[list], end = offsets[list + 1];
    uint32_t missing = 0, put_ups = 0, worst = start == end || is_incomplete[list] ? 4 : 7;
    for (uint32_t i = start; i < end; i++) {
      uint32_t length = need[i];
      const Stock *s = &stock[need_thread[i]];
      if (length <= s->enough) continue;
      uint32_t rank;
      if (length <= s->ready) rank = 6;
      else {
        missing++;
        if (length <= s->elsewhere) rank = s->is_some_held ? 4 : 3;
        else if (length <= s->lots) {
          rank = 2;
          put_ups += (length - 1) / s->put_up + 1;
        } else {
          rank = s->is_some_free;
          put_ups += (length - s->held - 1) / s->put_up + 1;
        }
      }
      if (rank < worst) worst = rank;
    }
    answers[list] = (Answer){missing, put_ups, worst};
  }
}

static int readiness(uint32_t rank) { return rank >= 6 ? 2 : rank == 5 ? 1 : 0; }

static int is_nearer(const Answer *a, const Answer *b) {
  int readier = readiness(a->rank) - readiness(b->rank);
  if (readier != 0) return readier > 0;
  if (a->put_ups != b->put_ups) return a->put_ups < b->put_ups;
  if (a->missing != b->missing) return a->missing < b->missing;
  return a->rank > b->rank;
}

static void choose_best(void) {
  for (uint32_t design = 0; design < sizes.designs; design++) {
    const Answer *chosen = &answers[first_list[design]];
    for (uint32_t list = first_list[design] + 1; list < first_list[design + 1]; list++)
      if (is_nearer(&answers[list], chosen)) chosen = &answers[list];
    best[design] = *chosen;
  }
}

int main(int count, char **words) {
  if (count != 4 || (columns = fopen(words[1], "rb")) == NULL || fread(&sizes, sizeof sizes, 1, columns) != 1) {
    fprintf(stderr, "archive-pass: give columns, answers and passes\n");
    return 1;
  }
  offsets = read_column(sizes.lists + 1, 4);
  need_thread = read_column(sizes.needs, 2);
  need = read_column(sizes.needs, 4);
  is_incomplete = read_column(sizes.lists, 1);
  first_list = read_column(sizes.designs + 1, 4);
  put_up = read_column(sizes.threads, 4);
  lots_matter = read_column(sizes.threads, 1);
  batch_offsets = read_column(sizes.threads + 1, 4);
  lot = read_column(sizes.batches, 4);
  is_asked = read_column(sizes.batches, 1);
  batch_put_up = read_column(sizes.batches, 4);
  whole = read_column(sizes.batches, 4);
  part = read_column(sizes.batches, 4);
  is_some = read_column(sizes.batches, 1);
  is_out = read_column(sizes.batches, 1);
  promise_offsets = read_column(sizes.batches + 1, 4);
  promised = read_column(sizes.promises, 4);
  stock = calloc(sizes.threads, sizeof *stock);
  answers = calloc(sizes.lists, sizeof *answers);
  best = calloc(sizes.designs, sizeof *best);

  for (int pass = -1; pass < atoi(words[3]); pass++) {
    double begun = now_ms();
    find_stock();
    answer_lists();
    choose_best();
    if (pass >= 0) printf("%.4f\n", now_ms() - begun);
  }
  FILE *out = fopen(words[2], "wb");
  if (out == NULL) return 1;
  fwrite(answers, sizeof *answers, sizes.lists, out);
  fwrite(best, sizeof *best, sizes.designs, out);
  return fclose(out) == 0 ? 0 : 1;
}
