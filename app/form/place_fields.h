#pragma once

#include <QObject>

#include <vector>

namespace strikeoff {

class FieldEditor;

/// Latitude and longitude of a form, taken as one place: a geo: address, or both figures with a comma between, fills both from either.
class PlaceFields : public QObject {
    Q_OBJECT
public:
    PlaceFields(FieldEditor& latitude, FieldEditor& longitude, QObject* parent);

    /// The pairs there are among the fields of a form.
    static std::vector<PlaceFields*> among(const std::vector<FieldEditor*>& editors, QObject* parent);

    bool has(const FieldEditor& editor) const { return &editor == &latitude_ || &editor == &longitude_; }
    /// Fills both from what stands in one of them; false when no whole place stands there.
    bool take(const FieldEditor& from);
    /// What is wrong with the place that stands in one of them; nothing when none stands there, or one that can be taken.
    QString fault(const FieldEditor& editor) const;
    /// Whether a place stands in one of them that is not taken yet.
    static bool standsIn(const FieldEditor& editor);
    /// Whether the text came all at once, as pasted text does. Called with every change.
    bool cameAtOnce(const FieldEditor& editor);

private:
    FieldEditor& latitude_;
    FieldEditor& longitude_;
    qsizetype lengthOf_[2] = {0, 0};
};

}
