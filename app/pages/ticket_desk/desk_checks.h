#pragma once

#include "desk.h"

#include "ready_mix/statement_findings.h"

#include <map>
#include <memory>

namespace strikeoff {

/// The checks of statements as the book stands, each made once until the book changes.
class DeskChecks {
public:
    explicit DeskChecks(Desk& desk) : desk_{desk} {}

    const StatementDesk& statements()
    {
        const auto& book = desk_.book();
        if (!made_ || version_ != book.version()) {
            checks_.clear();
            made_ = std::make_unique<StatementDesk>(book);
            version_ = book.version();
        }
        return *made_;
    }
    /// nullptr for a statement that is not in the book.
    const StatementCheck* of(Id<Statement> id)
    {
        const auto* statement = desk_.book().find(id);
        if (!statement) return nullptr;
        const auto& all = statements();
        auto found = checks_.find(id);
        if (found == checks_.end()) found = checks_.emplace(id, all.check(*statement)).first;
        return &found->second;
    }

private:
    Desk& desk_;
    std::unique_ptr<StatementDesk> made_;
    std::map<Id<Statement>, StatementCheck> checks_;
    std::uint64_t version_ = 0;
};

}
