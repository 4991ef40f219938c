#pragma once

#include "record/choices.h"

namespace strikeoff {

struct Receipt {
    Id<Receipt> id;
    std::int32_t revision = 0;
    std::string number;
    Date date;
    std::optional<Id<Job>> job;
    CostClass costClass = CostClass::other;
    std::string vendor;
    std::string reference;
    std::string description;
    std::optional<Quantity> quantity;
    std::string unit;
    std::optional<UnitPrice> unitPrice;
    Money amount;
    std::optional<Date> paidOn;
    std::string note;
};

struct Overhead {
    Id<Overhead> id;
    std::int32_t revision = 0;
    std::int32_t year = 0;
    std::string item;
    Money amount;
    std::string note;
};

}
