"""Starts of published networks, against longest paths of networkx and the published dates.

Sources: the networks, dates and grades stand in networks.json. Every link is a bound between two
starts, S_to >= S_from + w, and every maximum one the other way round, S_from >= S_to - w; earliest
starts are longest paths from a common beginning, and latest starts longest paths to a common end
(generalised precedence relations, published in course notes on project networks). networkx
(reference library) finds them as shortest paths of the negated lengths with Bellman-Ford, which
also proves that no cycle of links contradicts itself.
"""

import json
from pathlib import Path

import networkx as nx

from cases import cases, close

BEGINNING, END = object(), object()
compared, differences = 0, []


def compare(what, ours, theirs):
    """Counts one comparison, and keeps it where the two differ."""
    global compared
    compared += 1
    if ours != theirs:
        differences.append(f"{what}: ours {ours}, reference {theirs}")


def between_starts(network, link, length):
    """A link between two ends as a length between the two starts."""
    length += network["work"][link["from"]] if link["kind"][0] == "F" else 0
    length -= network["work"][link["to"]] if link["kind"][1] == "F" else 0
    return length


def longest(network):
    """The network as a graph of negated lengths between starts."""
    graph = nx.DiGraph()

    def at_least(start, end, length):
        known = graph.get_edge_data(start, end)
        if known is None or -length < known["weight"]:
            graph.add_edge(start, end, weight=-length)

    for name, work in network["work"].items():
        at_least(BEGINNING, name, 0)
        at_least(name, END, work)
    for link in network["links"]:
        if "min" in link:
            at_least(link["from"], link["to"], between_starts(network, link, link["min"]))
        if "max" in link:
            at_least(link["to"], link["from"], -between_starts(network, link, link["max"]))
    return graph


ours = {network["name"]: network for network in cases("networks")}
for network in json.loads((Path(__file__).parent / "networks.json").read_text(encoding="utf-8")):
    name, computed = network["name"], ours[network["name"]]
    graph = longest(network)
    to = nx.single_source_bellman_ford_path_length(graph, BEGINNING)
    back = nx.single_source_bellman_ford_path_length(graph.reverse(), END)
    finish = -to[END]
    compare(f"{name}: published length", finish, network["finish"])
    compare(f"{name}: finish of the plan", computed["finish"], finish)
    compare(f"{name}: breaches of the plan", computed["breaches"], 0)
    for activity in network["work"]:
        compare(f"{name}: earliest {activity}", computed["earliest"][activity], -to[activity])
        compare(f"{name}: latest {activity}", computed["latest"][activity], finish + back[activity])
        within = -to[activity] <= computed["planned"][activity] <= finish + back[activity]
        compare(f"{name}: planned {activity} within its float", within, True)
    for activity, start in network.get("starts", {}).items():
        compare(f"{name}: published earliest {activity}", -to[activity], start)
    for activity, start in network.get("latest", {}).items():
        compare(f"{name}: published latest {activity}", finish + back[activity], start)

close(compared, differences)
