#include "form/supplier_box.h"

#include "labels.h"

#include <algorithm>

namespace strikeoff {

SupplierBox::SupplierBox(const char* objectName, const QString& name, QWidget* parent) : QComboBox{parent}
{
    setObjectName(QString::fromLatin1(objectName));
    setAccessibleName(name);
    setMinimumContentsLength(22);
}

bool SupplierBox::list(const Book& book)
{
    const auto before = chosen();
    std::vector<const Supplier*> all;
    for (const auto& each : book.all<Supplier>()) all.push_back(&each);
    std::ranges::sort(all, {}, [](const auto* each) { return each->name; });
    clear();
    for (const auto* each : all) addItem(qs(each->name), QVariant::fromValue<qlonglong>(each->id.value()));
    return before && choose(*before);
}

std::optional<Id<Supplier>> SupplierBox::chosen() const
{
    const auto id = currentData().toLongLong();
    return id > 0 ? std::optional{Id<Supplier>{id}} : std::nullopt;
}

bool SupplierBox::choose(Id<Supplier> supplier)
{
    const int at = findData(QVariant::fromValue<qlonglong>(supplier.value()));
    if (at >= 0) setCurrentIndex(at);
    return at >= 0;
}

}
