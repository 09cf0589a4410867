#include "recovery/sampled_symbol.h"
