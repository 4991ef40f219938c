#pragma once

#include "store.h"

#include <string>

namespace strikeoff {

/// How large a book the bench makes.
struct MadeSize {
    int jobs = 20'000;
    int tickets = 100'000;
    int hours = 600'000;
};

/// Writes a book of that size into a new file, evenly spread over twenty years. The same book every time.
void makeBook(const std::string& path, const MadeSize& size);

/// An edit of the bench's own. DomainError, with what is wrong, when it is not taken.
void commit(Store& store, Edit edit);

/// The n-th made ticket; its job is found in the book.
Ticket madeTicket(const Book& book, int n);

}
