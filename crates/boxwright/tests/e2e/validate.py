"""Holds JSON texts against a schema: validate.py SCHEMA FILE…

Prints one line for each file, "ok" or what is wrong with it.
"""

import json
import sys

from jsonschema import Draft202012Validator


def refuse(constant):
    raise ValueError(f"{constant} is not JSON")


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    for path in sys.argv[2:]:
        with open(path, encoding="utf-8") as file:
            value = json.load(file, parse_constant=refuse)
        errors = [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(value)]
        print("; ".join(errors) or "ok")


main()
