#pragma once

#include <QComboBox>

#include "record/book.h"

namespace strikeoff {

/// A choice among the suppliers of the book, by name.
class SupplierBox : public QComboBox {
    Q_OBJECT
public:
    /// `name` is told by the field to whoever does not see it.
    SupplierBox(const char* objectName, const QString& name, QWidget* parent = nullptr);

    /// Lists those of the book, and keeps the one that was chosen while it is there; true then.
    bool list(const Book& book);
    /// The one chosen; none while there are none.
    std::optional<Id<Supplier>> chosen() const;
    bool choose(Id<Supplier> supplier);
};

}
