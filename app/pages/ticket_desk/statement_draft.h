#pragma once

#include "form/draft_keeper.h"
#include "pages/ticket_desk/statement_file.h"

namespace strikeoff {

/// The rows of a statement on its way in, and how they are taken to be laid out, as they are kept in a draft.
std::vector<DraftRow> draftRowsOf(const TextRows& rows, const StatementGuess& guess);
/// Reads such rows again.
StatementFile statementOfDraft(std::span<const DraftRow> kept);

}
