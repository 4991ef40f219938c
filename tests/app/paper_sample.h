#pragma once

#include "record/book.h"

namespace strikeoff::sample {

inline Date day(int year, int month, int dayOfMonth) { return *Date::of(year, month, dayOfMonth); }

/// Keeps a record in the book under an id.
template <class Record>
Id<Record> put(Book& book, Record record, std::int64_t id)
{
    record.id = Id<Record>{id};
    book.put(rowOf(record));
    return record.id;
}

/// A small outfit with one job of some sections: quoted with a mark-up, changed, billed with retainage, partly paid.
struct Outfit {
    Book book;
    Id<Customer> customer{1};
    Id<Job> job{1};
    Id<Quote> quote{1};
    Id<ChangeOrder> change{1};
    Id<Invoice> invoice{1};
    Id<Credit> credit{1};

    Outfit()
    {
        Settings settings;
        settings.outfitName = "Wrenfield Flatwork";
        settings.outfitAddress = "418 Quarry Lane";
        settings.outfitTown = "Maple Ferry, OH 45999";
        settings.outfitPhone = "555-0142";
        settings.outfitEmail = "office@example.com";
        settings.license = "FW-20417";
        settings.lateChargeMonthly = Rate::ofUnits(15'000);
        put(book, settings, 1);

        Customer who;
        who.name = "Odalys Prentiss-Marlowe";
        who.address = "27 Alder Court";
        who.town = "Maple Ferry, OH 45999";
        who.phone = "555-0117";
        who.email = "odalys@example.com";
        who.note = "pays late, haggles";
        put(book, who, 1);

        Site site;
        site.name = "27 Alder Court";
        site.customer = customer;
        site.address = "27 Alder Court";
        site.town = "Maple Ferry, OH 45999";
        site.note = "mean dog behind the gate";
        put(book, site, 1);

        Job folder;
        folder.number = "1044";
        folder.title = "Patio, walk and steps landing";
        folder.customer = customer;
        folder.site = Id<Site>{1};
        folder.openedOn = day(2026, 5, 4);
        folder.note = "neighbor wants one too";
        put(book, folder, 1);

        putSections();
        putQuote();
        putBilling();
    }

private:
    void putSections()
    {
        TakeoffSection slab;
        slab.job = job;
        slab.name = "Patio";
        slab.length = TapeLength::ofFeet(40);
        slab.width = TapeLength::ofFeet(10);
        slab.thickness = TapeLength::ofInches(4);
        put(book, slab, 1);

        TakeoffSection walk;
        walk.job = job;
        walk.position = 2;
        walk.name = "Walk around the corner";
        walk.shape = SectionShape::polygon;
        walk.points = "0 0; 22 0; 22 4; 4 4; 4 15.5; 0 15.5";
        walk.thickness = TapeLength::ofInches(4);
        walk.note = "check the grade by the downspout";
        put(book, walk, 2);

        TakeoffSection round;
        round.job = job;
        round.position = 3;
        round.name = "Fire pit opening";
        round.shape = SectionShape::circle;
        round.deduct = true;
        round.length = TapeLength::ofFeet(5);
        round.thickness = TapeLength::ofInches(4);
        put(book, round, 3);

        TakeoffSection apron;
        apron.job = job;
        apron.position = 4;
        apron.name = "Steps landing";
        apron.shape = SectionShape::trapezoid;
        apron.length = TapeLength::ofFeet(8);
        apron.secondLength = TapeLength::ofFeet(5, 6);
        apron.width = *TapeLength::parse("4' 3-1/2\"");
        apron.thickness = TapeLength::ofInches(5);
        apron.finish = SurfaceFinish::exposed;
        put(book, apron, 4);

        TakeoffSection edge;
        edge.job = job;
        edge.position = 5;
        edge.name = "Thickened edge at the drop";
        edge.shape = SectionShape::thickenedEdge;
        edge.length = TapeLength::ofFeet(40);
        edge.width = TapeLength::ofInches(12);
        edge.thickness = TapeLength::ofInches(8);
        put(book, edge, 5);
    }

    void putQuote()
    {
        Quote offer;
        offer.number = "Q1012";
        offer.issue = 2;
        offer.job = job;
        offer.draftedOn = day(2026, 5, 6);
        offer.sentOn = day(2026, 5, 7);
        offer.validUntil = day(2026, 6, 6);
        offer.scope = "Strip the sod, haul it off, set and compact four inches of base. Form, place and broom finish the patio and the walk; exposed aggregate on the landing.\n"
                      "Cut joints the day after, strip forms, backfill the edges and seal in dry weather.";
        offer.exclusions = "Permit fees, moving of sprinkler lines, rock that a skid steer cannot lift, seeding.";
        offer.terms = "Deposit on acceptance, the rest within 14 days of the final invoice. Weather moves the pour, not the price. Changes are agreed in writing before they are made.";
        offer.markup = Rate::ofUnits(372'500);  // 37.25 %
        offer.taxRate = Rate::ofUnits(67'500);  // 6.75 %
        offer.deposit = Rate::ofWhole(30);
        offer.pourMonth = day(2026, 6, 1);
        put(book, offer, 1);

        const auto line = [&](std::int64_t id, CostClass costClass, const char* text, std::int64_t milliUnits, const char* unit, std::int64_t costUnits,
                              std::optional<std::int64_t> priceUnits = {}) {
            QuoteLine added;
            added.quote = quote;
            added.position = static_cast<std::int32_t>(id);
            added.costClass = costClass;
            added.description = text;
            added.quantity = Quantity::ofUnits(milliUnits);
            added.unit = unit;
            added.unitCost = UnitPrice::ofUnits(costUnits);
            if (priceUnits) added.unitPrice = UnitPrice::ofUnits(*priceUnits);
            added.code = "4000AE";
            put(book, added, id);
        };
        line(1, CostClass::concrete, "4,000 psi air-entrained mix", 6'750, "yd", 163'7700);
        line(2, CostClass::concrete, "Fiber in all loads", 6'750, "yd", 9'1300);
        line(3, CostClass::labor, "Prep and forming", 17'500, "h", 41'3300);
        line(4, CostClass::labor, "Placing and finishing", 21'000, "h", 41'3300);
        line(5, CostClass::base, "Crushed limestone base, hauled and compacted", 8'000, "ton", 33'7900);
        line(6, CostClass::sealer, "Penetrating sealer, one coat", 518'000, "sf", 2900, 8500);
        line(7, CostClass::equipment, "Sod stripped and hauled off", 1'000, "load", 211'0000, 375'0000);
    }

    void putBilling()
    {
        ChangeOrder extra;
        extra.job = job;
        extra.number = 1;
        extra.askedOn = day(2026, 6, 9);
        extra.description = "Two more feet of walk along the garage, same thickness and finish, with one more joint.";
        extra.cost = Money::ofCents(153'29);
        extra.price = Money::ofCents(260'00);
        extra.note = "did it cheap";
        put(book, extra, 1);

        Invoice bill;
        bill.number = "I1031";
        bill.job = job;
        bill.draftedOn = day(2026, 6, 20);
        bill.issuedOn = day(2026, 6, 21);
        bill.dueOn = day(2026, 7, 5);
        bill.taxRate = Rate::ofUnits(67'500);
        bill.retainage = Rate::ofWhole(5);
        bill.heading = "Patio, walk and landing as quoted in Q1012, with change order 1";
        bill.terms = "Due within 14 days.";
        bill.note = "owes us for the last one";
        put(book, bill, 1);
        const auto line = [&](std::int64_t id, const char* text, std::int64_t milliUnits, const char* unit, std::int64_t priceUnits, bool taxable) {
            InvoiceLine added;
            added.invoice = invoice;
            added.position = static_cast<std::int32_t>(id);
            added.description = text;
            added.quantity = Quantity::ofUnits(milliUnits);
            added.unit = unit;
            added.unitPrice = UnitPrice::ofUnits(priceUnits);
            added.taxable = taxable;
            put(book, added, id);
        };
        line(1, "Patio, walk and landing as quoted", 1'000, "", 4'912'4000, true);
        line(2, "Sealing", 518'000, "sf", 8500, true);
        line(3, "Change order 1: two feet of walk", 1'000, "", 260'0000, true);
        line(4, "Permit, passed on at what it was", 1'000, "", 45'0000, false);

        Payment money;
        money.number = "P1";
        money.customer = customer;
        money.receivedOn = day(2026, 6, 30);
        money.amount = Money::ofCents(2'000'00);
        money.reference = "2210";
        money.note = "bounced once";
        put(book, money, 1);
        PaymentShare share;
        share.payment = Id<Payment>{1};
        share.invoice = invoice;
        share.amount = Money::ofCents(2'000'00);
        put(book, share, 1);
        Credit note;
        note.number = "C1003";
        note.invoice = invoice;
        note.issuedOn = day(2026, 7, 2);
        note.amount = Money::ofCents(85'00);
        note.reason = "The gate post that was scraped while the base went in.";
        put(book, note, 1);
    }
};

}
