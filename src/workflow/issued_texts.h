// What the symbols of the tags in use say, so that one which cannot be decoded can be told by its likeness to them.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "recovery/known_texts.h"
#include "workflow/desk.h"

namespace counterfoil {

// Of every number that the record has issued and that is not used up (voided, installed, destroyed): both halves or the
// label, each copy that was printed, in the form that the issuing desk prints (with its host or bare; in both where
// two desks of the record share a prefix). A retired number is never among them.
std::vector<std::string> issued_texts(const Record& record);

// The record and its texts, made once per command.
struct TagsInUse {
  Record record;
  KnownTexts texts;
};
Result<TagsInUse> tags_in_use(const Desk& desk);

}  // namespace counterfoil
